package lookstep.protocols.image;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A JPEG picture without its words: its coded data as it is, the orientation, and the colour
 * profile. Serial numbers, places, names, maker notes and thumbnails are left out (ITU-T T.81 annex
 * B for the segments; ICC.1 annex B.4 for the profile's).
 */
public final class BareJpeg {
    private static final byte[] JFIF = ascii("JFIF\0");
    private static final byte[] ADOBE = ascii("Adobe");
    private static final byte[] ICC = ascii("ICC_PROFILE\0");

    private static final int APP0 = 0xE0;
    private static final int APP14 = 0xEE;
    private static final int APP15 = 0xEF;
    private static final int COM = 0xFE;

    /** Of JFIF's segment, without marker, length and thumbnail. */
    private static final int JFIF_OCTETS = 14;

    /** More than any camera's profile; a few hundred octets to a few thousand is usual. */
    private static final int MOST_PROFILE_OCTETS = 1 << 20;

    private BareJpeg() {}

    /**
     * The picture as it is to be handed on.
     *
     * @param jpeg one picture; what follows its end marker is left out
     * @param orientation 1..8, for the Exif that replaces all other words
     * @param profile segments of {@link #profile}, used if the picture has no profile of its own
     * @return empty if it is not a whole JPEG
     */
    public static Optional<byte[]> of(byte[] jpeg, int orientation, List<byte[]> profile) {
        try {
            return of(Octets.of(jpeg), jpeg, orientation, profile);
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    private static Optional<byte[]> of(
            Octets octets, byte[] jpeg, int orientation, List<byte[]> profile) throws IOException {
        JpegWalk walk = new JpegWalk(octets);
        List<JpegWalk.Segment> left = new ArrayList<>();
        Optional<JpegWalk.Segment> jfif = Optional.empty();
        boolean frame = false;
        boolean scan = false;
        boolean ownProfile = false;
        JpegWalk.Step step = walk.next();
        while (step instanceof JpegWalk.Segment segment) {
            frame |= segment.isFrameHeader();
            scan |= segment.marker() == JpegWalk.SOS;
            if (isIcc(octets, segment)) {
                ownProfile = true;
            } else if (isWords(octets, segment)) {
                left.add(segment);
                if (jfif.isEmpty() && isJfif(octets, segment)) {
                    jfif = Optional.of(segment);
                }
            }
            step = walk.next();
        }
        if (!(step instanceof JpegWalk.End end) || !frame || !scan) {
            return Optional.empty();
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream(jpeg.length + 4096);
        out.write(jpeg, 0, 2);
        if (jfif.isPresent()) {
            // without the thumbnail that it may hold
            out.writeBytes(new byte[] {(byte) 0xFF, (byte) APP0, 0, JFIF_OCTETS + 2});
            out.write(jpeg, (int) jfif.get().start(), JFIF_OCTETS - 2);
            out.writeBytes(new byte[2]);
        }
        out.writeBytes(ExifWriter.orientation(orientation));
        if (!ownProfile) {
            profile.forEach(out::writeBytes);
        }
        int kept = 2;
        for (JpegWalk.Segment words : left) {
            out.write(jpeg, kept, (int) words.at() - kept);
            kept = (int) words.end();
        }
        out.write(jpeg, kept, (int) end.after() - kept);
        return Optional.of(out.toByteArray());
    }

    /**
     * The segments of a JPEG file's colour profile, with their markers, in order. None if it has
     * none, or an unreasonable one. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read, whatever is in it
     */
    public static List<byte[]> profile(SeekableByteChannel jpeg) throws IOException {
        Octets octets = Octets.of(jpeg);
        List<byte[]> profile = new ArrayList<>();
        int sum = 0;
        for (JpegWalk.Segment segment : JpegHeader.read(octets).segments()) {
            if (isIcc(octets, segment)) {
                sum += segment.length();
                if (sum > MOST_PROFILE_OCTETS) {
                    return List.of();
                }
                profile.add(octets.copy(segment.at(), (int) (segment.end() - segment.at())));
            }
        }
        return profile;
    }

    /**
     * Where the segments of a picture's colour profile begin to say that they are one: positions in
     * the file of the 12 octets "ICC_PROFILE" and NUL. Moves the channel's position.
     *
     * @param start of the picture in the file
     * @param length of the picture
     * @throws IOException if the file cannot be read, whatever is in it
     */
    public static List<Long> profilePlaces(SeekableByteChannel file, long start, long length)
            throws IOException {
        Octets octets = Octets.of(file).part(start, length);
        List<Long> places = new ArrayList<>();
        for (JpegWalk.Segment segment : JpegHeader.read(octets).segments()) {
            if (isIcc(octets, segment)) {
                places.add(start + segment.start());
            }
        }
        return places;
    }

    private static boolean isIcc(Octets octets, JpegWalk.Segment segment) throws IOException {
        return segment.marker() == JpegWalk.APP2
                && segment.length() >= ICC.length
                && octets.holds(segment.start(), ICC);
    }

    private static boolean isJfif(Octets octets, JpegWalk.Segment segment) throws IOException {
        return segment.marker() == APP0
                && segment.length() >= JFIF_OCTETS
                && octets.holds(segment.start(), JFIF);
    }

    /** Application segments and comments, but for Adobe's, which says what the components are. */
    private static boolean isWords(Octets octets, JpegWalk.Segment segment) throws IOException {
        int marker = segment.marker();
        if (marker == APP14
                && segment.length() >= ADOBE.length
                && octets.holds(segment.start(), ADOBE)) {
            return false;
        }
        return (marker >= APP0 && marker <= APP15) || marker == COM;
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
