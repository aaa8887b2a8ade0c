package lookstep.server.checks;

import java.util.Locale;

/**
 * Shapes of the formats. A page is A4 (ISO 216: 210 x 297 mm), a spread two of them side by side;
 * other magazines' pages are a few percent wider.
 */
final class Formats {
    private Formats() {}

    static double widthOverHeight(String framing) {
        return switch (framing.toLowerCase(Locale.ROOT)) {
            case "portrait 4:5" -> 4 / 5.0;
            case "square" -> 1;
            case "spread" -> 420 / 297.0;
            case "cover" -> 210 / 297.0;
            case "landscape 16:9" -> 16 / 9.0;
            default -> 3 / 2.0;
        };
    }
}
