/**
 * From estimates and truth to a page: scores every song, compares with the last committed run, and
 * writes tables, JSON and pictures.
 */
package undersong.bench.report;
