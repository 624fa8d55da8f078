/**
 * Finders of the catalogue's melody chapter: readings in, findings out; one family never uses
 * another.
 */
package undersong.technique.melody;
