package lookstep.server.plan;

/**
 * How long the crew takes for what is between and in the shots, seconds. The usual ones are figures
 * of our own; a shoot learns its own.
 *
 * @param key to press the next look and see it
 * @param words to say how to stand
 * @param people for somebody to come in or go out
 * @param lens to change the lens
 * @param camera to go and stand elsewhere
 * @param light to move one light
 * @param shot to make a shot, once everything is there
 * @param solo the same of one person
 */
public record MoveTimes(
        double key,
        double words,
        double people,
        double lens,
        double camera,
        double light,
        double shot,
        double solo) {
    public static final MoveTimes USUAL = new MoveTimes(2, 8, 8, 15, 6, 60, 20, 10);
}
