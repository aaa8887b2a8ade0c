package lookstep.server.plan;

/**
 * How a surface reflects: diffuse reflectance in linear red, green, blue of sRGB primaries, each
 * 0..1.
 */
public record Surface(double red, double green, double blue) {}
