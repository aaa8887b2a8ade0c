/** The whole program as its users have it: a real process, real device nodes, a real browser. */
package lookstep.server.end;
