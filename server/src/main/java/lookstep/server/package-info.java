/** The parts put together: real or rehearsed gear is chosen here, once, and nowhere else. */
package lookstep.server;
