/**
 * The bench: how well the program hears, measured. Names of sets enter; a page of results leaves.
 */
package undersong.bench;
