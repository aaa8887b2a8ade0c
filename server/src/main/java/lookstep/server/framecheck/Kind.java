package lookstep.server.framecheck;

/** What a remark is about; a report has at most one of each. */
public enum Kind {
    /** F-number, time, ISO and white balance against the look. */
    SETTINGS,
    /** Whether the f-number holds everybody sharp, by the optics. */
    DEPTH,
    /** How light the faces are against the plan. */
    EXPOSURE,
    /** What is so bright that nothing is left of it. */
    CLIPPING,
    /** How dark the background is under the faces. */
    BACKGROUND,
    /** Whether the hand or the people moved, by the exposure time. */
    MOTION,
    /** Front and back row, left and right, as the picture shows them. */
    SHARPNESS,
    /** The same picture once more. */
    TWICE,
    /** Faces where the pages meet. */
    FOLD
}
