/**
 * Finders of the catalogue's production chapter: readings in, findings out; one family never uses
 * another.
 */
package undersong.technique.production;
