package lookstep.server.plan;

/**
 * What is in front of a light.
 *
 * @param name bare, softbox, umbrella, grid ...
 * @param sizeMetres diameter of the surface that lights
 * @param transmission share of the on-axis intensity that is left, above 0, at most 1
 * @param beamDegrees full angle at half intensity that it leaves; 0 keeps the fixture's own
 */
public record Modifier(String name, double sizeMetres, double transmission, double beamDegrees) {}
