package lookstep.server.framecheck;

/**
 * One thing to say of a frame.
 *
 * @param kind what it is about
 * @param weight how much it matters
 * @param says plain words: who, how much, what to do
 * @param value the number it is about: stops (SETTINGS: more light than the look is above 0; mired
 *     if only the colour is off; EXPOSURE and BACKGROUND: against the plan), metres that are sharp
 *     behind the nearest face (DEPTH), the share of pixels (CLIPPING), seconds (MOTION), the softer
 *     part's sharpness against the other's (SHARPNESS), mean CIEDE2000 (TWICE), how many faces
 *     (FOLD); NaN where there is none
 */
public record Remark(Kind kind, Weight weight, String says, double value) {}
