/**
 * The plan file: people, lights, looks and shots, and everything that can be wrong with it, by
 * line. Must not know what happens on the day.
 */
package lookstep.server.plan;
