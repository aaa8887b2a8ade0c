/**
 * The pages and what is pushed to them; the only importer of the web server. Must not know how
 * lights, camera or journal work: it shows state and passes presses on.
 */
package lookstep.server.web;
