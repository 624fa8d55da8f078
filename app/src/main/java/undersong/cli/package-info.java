/** The command line: words in, printed readings out. It makes no musical decisions. */
package undersong.cli;
