package lookstep.server.plan;

/**
 * One of the band.
 *
 * @param name how they are called on the set
 * @param part what they play
 * @param heightMetres standing height
 * @param skin how skin reflects
 * @param hair how hair reflects
 * @param top clothes above the waist
 * @param bottom clothes below the waist
 */
public record Person(
        String name,
        String part,
        double heightMetres,
        Surface skin,
        Surface hair,
        Surface top,
        Surface bottom) {}
