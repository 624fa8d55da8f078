/**
 * Finders of the catalogue's rhythm chapter: readings in, findings out; one family never uses
 * another.
 */
package undersong.technique.rhythm;
