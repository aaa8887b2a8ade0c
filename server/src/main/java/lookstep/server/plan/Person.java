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
 * @param note what else to know: what they wear, what they do not want; may be empty
 */
public record Person(
        String name,
        String part,
        double heightMetres,
        Surface skin,
        Surface hair,
        Surface top,
        Surface bottom,
        String note) {
    /** Of whom nothing else is known. */
    public Person(
            String name,
            String part,
            double heightMetres,
            Surface skin,
            Surface hair,
            Surface top,
            Surface bottom) {
        this(name, part, heightMetres, skin, hair, top, bottom, "");
    }
}
