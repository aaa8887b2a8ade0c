package lookstep.server.paper;

/** The sheet that is in the printer; ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch. */
public enum PaperSize {
    /** 210 x 297 mm. */
    A4(210 * 72 / 25.4, 297 * 72 / 25.4),
    /** 8.5 x 11 inches. */
    LETTER(8.5 * 72, 11 * 72);

    private final double widthPoints;
    private final double heightPoints;

    PaperSize(double widthPoints, double heightPoints) {
        this.widthPoints = widthPoints;
        this.heightPoints = heightPoints;
    }

    double widthPoints() {
        return widthPoints;
    }

    double heightPoints() {
        return heightPoints;
    }
}
