package lookstep.server.framecheck;

/** How much a remark matters; the heaviest last. */
public enum Weight {
    /** As planned. */
    GOOD,
    /** Worth a glance; it may be meant. */
    LOOK,
    /** This frame will not do what the plan wants. */
    WRONG
}
