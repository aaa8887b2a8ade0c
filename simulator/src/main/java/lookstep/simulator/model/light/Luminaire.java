package lookstep.simulator.model.light;

import lookstep.simulator.model.space.Vec3;

/**
 * One lamp with what is in front of it, as placed.
 *
 * @param position middle of the lit surface, metres
 * @param aim the point it looks at, metres; not the position itself
 * @param beamDegrees full angle at half intensity, above 0, below 180
 * @param sizeMetres diameter of the lit surface; 0 is a point
 */
public record Luminaire(Vec3 position, Vec3 aim, double beamDegrees, double sizeMetres) {
    public Luminaire {
        if (!(beamDegrees > 0 && beamDegrees < 180)) {
            throw new IllegalArgumentException(
                    "beam of " + beamDegrees + " degrees: choose above 0 and below 180");
        }
        if (!(sizeMetres >= 0)) {
            throw new IllegalArgumentException("a lamp of " + sizeMetres + " m has no size");
        }
        if (position.equals(aim)) {
            throw new IllegalArgumentException(
                    "the lamp at " + position + " aims at itself; aim it at the people");
        }
    }

    /** How its light spreads. */
    public Beam beam() {
        return new Beam(beamDegrees);
    }

    /** Unit vector along the beam's axis. */
    public Vec3 axis() {
        return aim.minus(position).unit();
    }
}
