package lookstep.protocols.image;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The segments before the first scan, where a file's words are.
 *
 * @param segments in order, at most {@link #MOST}
 * @param trouble why there may be more that could not be reached
 */
record JpegHeader(List<JpegWalk.Segment> segments, Optional<String> trouble) {
    /** More than any camera writes; a file of many small segments must not fill the memory. */
    static final int MOST = 1000;

    private static final byte[] EXIF = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);
    private static final byte[] MPF = "MPF\0".getBytes(StandardCharsets.US_ASCII);

    /**
     * @throws IllegalArgumentException if it is no JPEG file, or ends before its first scan
     */
    static JpegHeader read(byte[] jpeg) {
        try {
            JpegHeader header = read(Octets.of(jpeg));
            if (header.trouble().isPresent()) {
                throw new IllegalArgumentException("no whole JPEG: " + header.trouble().get());
            }
            return header;
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    static JpegHeader read(Octets octets) throws IOException {
        JpegWalk walk = new JpegWalk(octets);
        List<JpegWalk.Segment> segments = new ArrayList<>();
        while (segments.size() < MOST) {
            JpegWalk.Step step = walk.next();
            if (step instanceof JpegWalk.Segment segment) {
                if (segment.marker() == JpegWalk.SOS) {
                    return new JpegHeader(segments, Optional.empty());
                }
                segments.add(segment);
            } else if (step instanceof JpegWalk.TooShort tooShort) {
                return new JpegHeader(segments, Optional.of(tooShort.why()));
            } else if (step instanceof JpegWalk.Broken broken) {
                return new JpegHeader(segments, Optional.of(broken.why()));
            } else {
                return new JpegHeader(segments, Optional.of("it ends without a picture"));
            }
        }
        return new JpegHeader(segments, Optional.of("more than " + MOST + " segments"));
    }

    /** The TIFF structure of the first Exif segment; empty if there is none. */
    Optional<Octets> exif(Octets file) throws IOException {
        for (JpegWalk.Segment segment : segments) {
            if (segment.marker() == JpegWalk.APP1
                    && segment.length() >= EXIF.length
                    && file.holds(segment.start(), EXIF)) {
                return Optional.of(
                        file.part(segment.start() + EXIF.length, segment.length() - EXIF.length));
            }
        }
        return Optional.empty();
    }

    static boolean isExif(byte[] jpeg, JpegWalk.Segment segment) {
        return segment.marker() == JpegWalk.APP1 && begins(jpeg, segment, EXIF);
    }

    static boolean isMpf(byte[] jpeg, JpegWalk.Segment segment) {
        return segment.marker() == JpegWalk.APP2 && begins(jpeg, segment, MPF);
    }

    private static boolean begins(byte[] jpeg, JpegWalk.Segment segment, byte[] with) {
        int start = (int) segment.start();
        return segment.length() >= with.length
                && Arrays.equals(jpeg, start, start + with.length, with, 0, with.length);
    }
}
