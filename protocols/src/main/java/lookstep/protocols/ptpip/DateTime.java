package lookstep.protocols.ptpip;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A moment as datasets write it: {@code YYYYMMDDThhmmss}, then perhaps tenths of a second, then
 * perhaps a zone (ISO 15740, DateTime string).
 *
 * @param local what the camera's clock said; tenths of a second are kept
 * @param zone if the camera said it
 */
public record DateTime(LocalDateTime local, Optional<ZoneOffset> zone) {
    private static final Pattern TEXT =
            Pattern.compile(
                    "(\\d{4})(\\d\\d)(\\d\\d)T(\\d\\d)(\\d\\d)(\\d\\d)"
                            + "(?:\\.(\\d))?(Z|[+-]\\d{4})?");
    private static final int TENTH_NANOS = 100_000_000;

    /** Empty if it is no such text, or no day or time that there is. */
    public static Optional<DateTime> parse(String text) {
        Matcher found = TEXT.matcher(text);
        if (!found.matches()) {
            return Optional.empty();
        }
        try {
            LocalDateTime local =
                    LocalDateTime.of(
                            number(found, 1),
                            number(found, 2),
                            number(found, 3),
                            number(found, 4),
                            number(found, 5),
                            number(found, 6),
                            found.group(7) == null ? 0 : TENTH_NANOS * number(found, 7));
            return Optional.of(
                    new DateTime(local, Optional.ofNullable(found.group(8)).map(ZoneOffset::of)));
        } catch (DateTimeException noSuchTime) {
            return Optional.empty();
        }
    }

    private static int number(Matcher found, int group) {
        return Integer.parseInt(found.group(group));
    }

    /** As it is written. */
    public String text() {
        int tenths = local.getNano() / TENTH_NANOS;
        return "%04d%02d%02dT%02d%02d%02d"
                        .formatted(
                                local.getYear(),
                                local.getMonthValue(),
                                local.getDayOfMonth(),
                                local.getHour(),
                                local.getMinute(),
                                local.getSecond())
                + (tenths == 0 ? "" : "." + tenths)
                + zone.map(z -> z.equals(ZoneOffset.UTC) ? "Z" : z.getId().replace(":", ""))
                        .orElse("");
    }
}
