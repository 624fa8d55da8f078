/**
 * Every song studied, kept in a database with the log of what the listener said. Values enter and
 * leave; rows stay inside.
 */
package undersong.shelf;
