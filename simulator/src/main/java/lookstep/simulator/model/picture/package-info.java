/**
 * Pictures of a scene: geometry is rendered once into plates (one for each lamp and one for the
 * house), then any look is a weighted sum of them in linear light. Knows nothing of files, plans or
 * lamps' protocols; single-threaded, and the same scene always gives the same picture.
 */
package lookstep.simulator.model.picture;
