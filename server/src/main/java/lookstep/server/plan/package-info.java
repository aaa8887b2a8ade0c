/**
 * The plan of a shoot: place, people, rig, looks and shots in order, and how to say them in plain
 * words. Must not know how the plan is written down, nor what happens on the day.
 */
package lookstep.server.plan;
