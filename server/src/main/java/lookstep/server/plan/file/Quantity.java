package lookstep.server.plan.file;

/**
 * What a number in the file may be.
 *
 * @param unit in words: metres
 * @param symbol with its space: " m"; empty if there is none
 * @param min least that is taken
 * @param max most that is taken
 * @param example a usual value
 */
record Quantity(String unit, String symbol, double min, double max, double example) {
    static final Quantity KELVIN = new Quantity("kelvin", " K", 1700, 20000, 5600);
    static final Quantity REFLECTANCE = new Quantity("a share", "", 0, 1, 0.18);

    static Quantity metres(double min, double max, double example) {
        return new Quantity("metres", " m", min, max, example);
    }

    static Quantity millimetres(double min, double max, double example) {
        return new Quantity("millimetres", " mm", min, max, example);
    }

    boolean holds(double value) {
        return value >= min && value <= max;
    }

    String mend() {
        return "write "
                + unit
                + " between "
                + Words.number(min)
                + " and "
                + Words.number(max)
                + ", for example "
                + Words.number(example);
    }
}
