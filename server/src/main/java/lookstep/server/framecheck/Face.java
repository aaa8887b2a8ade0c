package lookstep.server.framecheck;

/**
 * A person's face in a picture.
 *
 * @param place where the plan has it
 * @param found true if something like a face was seen there or near
 * @param metre a square metre around its middle, in the picture
 */
record Face(FacePlace place, boolean found, Box metre) {
    /** Just where the plan has it. */
    static Face asPlanned(FacePlace place) {
        return new Face(place, false, place.metre());
    }

    String name() {
        return place.name();
    }

    /** What is measured: skin, without the hair. */
    Box skin() {
        return metre.times(FacePlace.WIDE_METRES, FacePlace.HIGH_METRES);
    }

    /** With hair and outline. */
    Box head() {
        return metre.times(0.19, 0.25);
    }
}
