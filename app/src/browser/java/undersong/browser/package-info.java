/**
 * A browser without a window, driven as a listener uses it: for tests and for the bench, never
 * shipped.
 */
package undersong.browser;
