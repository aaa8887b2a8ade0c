/** Points and directions on the set, in metres. Knows nothing of light, people or pictures. */
package lookstep.simulator.model.space;
