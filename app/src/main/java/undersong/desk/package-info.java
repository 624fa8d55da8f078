/**
 * The desk's server: HTTP requests from this machine enter, JSON, sound and pictures leave, as
 * {@code docs/desk-api.yaml} has it. It words what the study hears under the reader's settings and
 * makes no musical decisions.
 */
package undersong.desk;
