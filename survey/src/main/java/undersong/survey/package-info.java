/**
 * The study of catalogues: recordings by the thousand, on this machine or on a cluster, kept as
 * Parquet. It uses the program; the program never uses it.
 */
package undersong.survey;
