/**
 * Finders of the catalogue's form chapter: readings in, findings out; one family never uses
 * another.
 */
package undersong.technique.form;
