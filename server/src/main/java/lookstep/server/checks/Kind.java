package lookstep.server.checks;

import java.util.Optional;

/** What a finding is about, in the order of the report. */
public enum Kind {
    DEPTH_OF_FIELD(
            "depth-of-field",
            "Depth of field",
            "Thin lens, focus left on the nearest face, circle of confusion 0.020 mm on 36 x 24 mm, a"
                    + " face 0.15 m deep."),
    EXPOSURE(
            "exposure",
            "Exposure",
            "On upright faces turned to the camera, house light included (ISO 2720, C = 250)."),
    SHUTTER(
            "shutter",
            "Exposure time",
            "For people who stand still and a camera in the hand (common practice)."),
    FLICKER("flicker", "Mains and dimming against the exposure time", ""),
    SEPARATION(
            "separation",
            "Separation",
            "Median of the outline against what is behind it; 1 stop is wanted (figure of our own)."),
    ROOM(
            "room",
            "The room",
            "Dark is from 4 stops under a grey card (zone I, common practice). A shorter exposure"
                    + " takes as much from the people as from the room: it does nothing here."),
    COLOUR(
            "colour",
            "Colour",
            "Through the camera's white balance; neutral is within 20 mired (figure of our own)."),
    FRAMING("framing", "Framing", ""),
    VARIETY(
            "variety",
            "Variety",
            "1 is the same picture, 0 has nothing in common (figures of our own)."),
    /** What the lights cannot give. */
    LIGHT("light", "What the lights cannot give", ""),
    ADDRESSES("addresses", "Addresses", ""),
    POWER(
            "power",
            "Power",
            "Four fifths of a circuit are for use (common practice); the local code prevails."),
    HEAT("heat", "Heat and what hangs", ""),
    FLASHING("flashing", "Flashing", ""),
    PLACE("place", "The place", ""),
    /** The running order against the window. */
    TIME("time", "Time", "");

    private final String id;
    private final String heading;
    private final String basis;

    Kind(String id, String heading, String basis) {
        this.id = id;
        this.heading = heading;
        this.basis = basis;
    }

    /** Stable, for programs. */
    public String id() {
        return id;
    }

    /** For people. */
    public String heading() {
        return heading;
    }

    /** What the figures rest on; empty if the findings say it themselves. */
    public Optional<String> basis() {
        return basis.isEmpty() ? Optional.empty() : Optional.of(basis);
    }
}
