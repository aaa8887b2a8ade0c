/** Gives loop objects their threads. Must not know what any loop does. */
package lookstep.server.loop;
