package lookstep.server.framecheck;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/** The same picture once more, against those that are kept. */
final class TwiceCheck {
    static final double ALIKE = 2.5;

    private TwiceCheck() {}

    static Optional<Remark> check(Taken taken, Fingerprint fingerprint) {
        KeptPicture nearest = null;
        double least = ALIKE;
        for (KeptPicture kept : taken.kept()) {
            OptionalDouble difference = kept.fingerprint().difference(fingerprint);
            if (kept.number() != taken.number()
                    && difference.isPresent()
                    && difference.getAsDouble() < least) {
                least = difference.getAsDouble();
                nearest = kept;
            }
        }
        if (nearest == null) {
            return Optional.empty();
        }
        return Optional.of(
                new Remark(
                        Kind.TWICE,
                        Weight.LOOK,
                        String.format(
                                Locale.ROOT,
                                "much like frame %d, %s (difference %.1f): change light or pose",
                                nearest.number(),
                                nearest.shotName(),
                                least),
                        least));
    }
}
