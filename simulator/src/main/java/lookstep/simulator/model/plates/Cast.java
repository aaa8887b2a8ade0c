package lookstep.simulator.model.plates;

/**
 * Which pixels show people, and which of those their skin. Immutable; the arrays are not copied.
 *
 * @param figure of each pixel, rows from the top: which person, counted from 0 from the left; -1
 *     for none
 * @param skin true where it is a face, neck or hand
 */
// Arrays in a record: handed on, not compared.
@SuppressWarnings("ArrayRecordComponent")
public record Cast(int width, int height, short[] figure, boolean[] skin) {
    public Cast {
        if (figure.length != width * height || skin.length != width * height) {
            throw new IllegalArgumentException(
                    "%d and %d values for %d x %d pixels"
                            .formatted(figure.length, skin.length, width, height));
        }
    }
}
