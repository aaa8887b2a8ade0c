package lookstep.server.framecheck;

/**
 * A part of a picture, in shares of its width and height, from the left and the top.
 *
 * @param x left edge
 * @param y upper edge
 * @param width share of the picture's width, above 0
 * @param height share of the picture's height, above 0
 */
record Box(double x, double y, double width, double height) {
    static Box around(double centreX, double centreY, double width, double height) {
        return new Box(centreX - width / 2, centreY - height / 2, width, height);
    }

    double centreX() {
        return x + width / 2;
    }

    double centreY() {
        return y + height / 2;
    }

    /** About the same middle, so many times as wide and as high. */
    Box times(double across, double down) {
        return around(centreX(), centreY(), width * across, height * down);
    }

    /** How much of it lies in the picture, 0..1. */
    double seen() {
        double w = Math.min(1, x + width) - Math.max(0, x);
        double h = Math.min(1, y + height) - Math.max(0, y);
        return w <= 0 || h <= 0 ? 0 : w * h / (width * height);
    }

    boolean holds(double px, double py) {
        return px >= x && px < x + width && py >= y && py < y + height;
    }
}
