package lookstep.server.plan;

/**
 * What is in front of a light. It makes no light: it lets a share through, and where its beam is
 * wider than the light's own the share is spread over it, where it is narrower the rest is cut off.
 *
 * @param name bare, softbox, umbrella, grid ...
 * @param sizeMetres diameter of the surface that lights
 * @param transmission share of the flux inside the beam that gets through, above 0, at most 1
 * @param beamDegrees full angle at half intensity that it leaves; 0 keeps the fixture's own
 * @param cuts true for what only shades, such as a grid or barn doors: it never widens a beam
 */
public record Modifier(
        String name, double sizeMetres, double transmission, double beamDegrees, boolean cuts) {}
