package lookstep.simulator.model.scene;

import lookstep.simulator.model.space.Vec3;

/**
 * What a surface does with light beside scattering it evenly.
 *
 * <p>Gloss: Fresnel by Schlick with 0.04 at normal incidence (a refractive index of 1.5) times a
 * Blinn-Phong lobe normalised by (m + 8) / 8 pi, so that a white lamp mirrored by it returns no
 * more than the Fresnel share. What the diffuse part loses to it at grazing light is taken off by
 * (1 - F) / (1 - 0.04), so head-on light still sees the plain reflectance.
 *
 * <p>Fibres and fine hairs stand out of cloth, hair and skin and light up where a surface is seen
 * edge-on (asperity scattering, Koenderink and Pont 2003, from memory): this is what draws the rim
 * around black clothes. It goes with the cube of 1 - cos of the angle of view, so a surface that
 * faces the camera has none of it.
 *
 * @param shine how much of the Fresnel share is mirrored, 0..1
 * @param power of the lobe; greater is glossier
 * @param fuzz how much stands out of the surface, 0..1
 */
public record Finish(double shine, double power, double fuzz) {
    public static final Finish SKIN = new Finish(0.8, 16, 0.35);
    public static final Finish HAIR = new Finish(0.8, 34, 0.8);
    public static final Finish CLOTHES = new Finish(0.45, 7, 0.5);
    public static final Finish SHOES = new Finish(1, 40, 0);
    public static final Finish FLOOR = new Finish(0.5, 45, 0);

    /** Walls, ceilings, cloth at the back: nothing but even scattering. */
    public static final Finish MATT = new Finish(0, 1, 0);

    private static final double F0 = 0.04;
    private static final double LEAST_FACING = 0.02;

    /**
     * Light that comes back without taking on the surface's colour, as a share of that on a white
     * surface under the same illuminance.
     *
     * @param n unit normal
     * @param d unit direction of view, towards the surface
     * @param l unit direction to the lamp, on the normal's side
     */
    public double mirrored(Vec3 n, Vec3 d, Vec3 l) {
        if (shine <= 0) {
            return 0;
        }
        Vec3 half = l.minus(d).unit();
        double share = fresnel(Math.max(0, half.dot(l)));
        double lobe = Math.pow(Math.max(0, n.dot(half)), power) * (power + 8) / 8;
        double sheen = 0;
        if (fuzz > 0) {
            double facing = Math.max(LEAST_FACING, -n.dot(d));
            double cosine = n.dot(l);
            double grazing = 1 - facing;
            sheen = fuzz * grazing * grazing * grazing / (4 * (cosine + facing - cosine * facing));
        }
        return shine * share * lobe + sheen;
    }

    /**
     * What is left for the even part.
     *
     * @param cosine of the angle of incidence
     */
    public double scattered(double cosine) {
        return 1 - shine * (fresnel(cosine) - F0) / (1 - F0);
    }

    private static double fresnel(double cosine) {
        double c = 1 - cosine;
        double c2 = c * c;
        return F0 + (1 - F0) * c2 * c2 * c;
    }
}
