/**
 * How long work reports its progress, is cancelled and fails: used by everything that can take a
 * while or go wrong.
 */
package undersong.work;
