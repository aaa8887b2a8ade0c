/**
 * The pages and what is pushed to them; the only importer of the web server. Must not know how
 * line, camera or journal work: it says plan and state in words, and passes presses on.
 */
package lookstep.server.web;
