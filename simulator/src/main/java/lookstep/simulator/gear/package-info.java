/**
 * The other end of each protocol: lights that listen to a line or to a network, a camera that sends
 * frames, and what can go wrong with them. Must not know the plan, the looks or the server; what
 * the light does on the set is the model's business.
 */
package lookstep.simulator.gear;
