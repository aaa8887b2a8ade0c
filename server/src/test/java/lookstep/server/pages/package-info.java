/**
 * The pages in a real browser, against their samples and a server that only records. Must not know
 * the real server.
 */
package lookstep.server.pages;
