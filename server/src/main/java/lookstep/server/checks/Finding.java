package lookstep.server.checks;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * One thing that a check found.
 *
 * @param kind what it is about
 * @param weight how much it weighs
 * @param subject whom or what it is about
 * @param says what is so and why, in plain words
 * @param numbers what it rests on, {@link Double} or {@link String}, units in the names, in order
 * @param mend what would help; empty if nothing is needed
 */
public record Finding(
        Kind kind,
        Weight weight,
        Subject subject,
        String says,
        Map<String, Object> numbers,
        Optional<Mend> mend) {
    public Finding {
        numbers = Collections.unmodifiableMap(new LinkedHashMap<>(numbers));
    }
}
