/**
 * Finders of the catalogue's harmony chapter: readings in, findings out; one family never uses
 * another.
 */
package undersong.technique.harmony;
