package lookstep.server.checks;

/** What a finding is about, in the order of the report. */
public enum Kind {
    DEPTH_OF_FIELD("depth-of-field", "Depth of field"),
    EXPOSURE("exposure", "Exposure"),
    SHUTTER("shutter", "Exposure time"),
    FLICKER("flicker", "Mains and dimming against the exposure time"),
    SEPARATION("separation", "Separation"),
    ROOM("room", "The room"),
    COLOUR("colour", "Colour"),
    FRAMING("framing", "Framing"),
    VARIETY("variety", "Variety"),
    /** What the lights cannot give. */
    LIGHT("light", "What the lights cannot give"),
    ADDRESSES("addresses", "Addresses"),
    POWER("power", "Power"),
    HEAT("heat", "Heat and what hangs"),
    FLASHING("flashing", "Flashing"),
    PLACE("place", "The place"),
    /** The running order against the window. */
    TIME("time", "Time");

    private final String id;
    private final String heading;

    Kind(String id, String heading) {
        this.id = id;
        this.heading = heading;
    }

    /** Stable, for programs. */
    public String id() {
        return id;
    }

    /** For people. */
    public String heading() {
        return heading;
    }
}
