/**
 * Whoever is measured: the program by its real path, trivial answers, and general-purpose tools. An
 * audio file enters; what was heard in it leaves, in one shape for all.
 */
package undersong.bench.peers;
