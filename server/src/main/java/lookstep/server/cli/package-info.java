/**
 * The command line: words, options, help, and what is printed at the start. Must not know how
 * anything is done.
 */
package lookstep.server.cli;
