package lookstep.server.framecheck;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The same picture once more, against those that are kept. The limit was measured on rendered
 * frames of the demo shoot. The same picture with noise, differently aimed by 5 cm or with
 * everybody up to 10 cm elsewhere: 0.5 to 1.5 for groups (2.1 for five close together, 1.0 to 1.7
 * for solos in which the person stands 3 cm elsewhere). Another look of the same people: 2.3 for
 * two lights off, which is the least; 7 and more for other colours. Another person's solo: 4.6 and
 * more. A third of a stop more alone is 2.1 to 2.8 where the faces are lit, so that counts as
 * another picture. In dark pictures all is nearer together: rim against top light is 3.5.
 */
final class TwiceCheck {
    static final double ALIKE = 2;

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
