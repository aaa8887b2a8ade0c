package lookstep.server.order;

/** What may have to change between two shots, and whose hands do it. */
public enum ChangeKind {
    /** The assistant presses the key; the light fades. */
    LOOK(Hand.ASSISTANT),
    /** The photographer says a new pose. */
    WORDS(Hand.PHOTOGRAPHER),
    /** Somebody walks in or out. */
    PEOPLE(Hand.PEOPLE),
    /** The photographer changes the lens, or zooms. */
    LENS(Hand.PHOTOGRAPHER),
    /** The photographer moves the camera. */
    CAMERA(Hand.PHOTOGRAPHER),
    /** The assistant moves lights. */
    LIGHTS(Hand.ASSISTANT),
    /** All of them go to another place. */
    ROOM(Hand.EVERYBODY);

    /** Those who work at the same time. */
    enum Hand {
        PHOTOGRAPHER,
        ASSISTANT,
        PEOPLE,
        EVERYBODY
    }

    private final Hand hand;

    ChangeKind(Hand hand) {
        this.hand = hand;
    }

    Hand hand() {
        return hand;
    }
}
