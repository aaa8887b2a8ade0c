package lookstep.server.ptpip;

import java.time.Duration;

/**
 * How long a camera is waited for.
 *
 * @param answerNanos for its next bytes, when an answer is due
 * @param probeNanos of quiet before it is asked whether it is still there
 * @param probeAnswerNanos for the answer to that
 * @param lookNanos between two looks at the card of a camera that tells of nothing
 * @param firstPauseNanos before it is tried again; doubled each time
 * @param longestPauseNanos up to which that grows
 */
record Patience(
        long answerNanos,
        long probeNanos,
        long probeAnswerNanos,
        long lookNanos,
        long firstPauseNanos,
        long longestPauseNanos) {
    /** For a camera in the same room: its radio link is lost and found within seconds. */
    static final Patience USUAL =
            new Patience(
                    Duration.ofSeconds(8).toNanos(),
                    Duration.ofSeconds(5).toNanos(),
                    Duration.ofSeconds(2).toNanos(),
                    Duration.ofSeconds(2).toNanos(),
                    Duration.ofMillis(500).toNanos(),
                    Duration.ofSeconds(5).toNanos());

    /** The pause before the attempt after so many that failed, 1 or more. */
    long pauseNanos(int failed) {
        long pause = firstPauseNanos;
        for (int i = 1; i < failed && pause < longestPauseNanos; i++) {
            pause *= 2;
        }
        return Math.min(pause, longestPauseNanos);
    }
}
