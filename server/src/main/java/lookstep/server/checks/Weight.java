package lookstep.server.checks;

/** How much a finding weighs. */
public enum Weight {
    /** As it should be; the numbers are worth knowing. */
    GOOD("good"),
    /** May be meant; look at it. */
    LOOK("look at"),
    /** Will not give the picture that is planned. */
    WRONG("wrong");

    private final String word;

    Weight(String word) {
        this.word = word;
    }

    /** As the report writes it. */
    public String word() {
        return word;
    }

    /** The heavier of two. */
    Weight or(Weight other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
