package lookstep.protocols.image;

import java.io.IOException;

/**
 * Steps through the marker segments of the first picture in a file (ITU-T T.81 annex B), over the
 * entropy-coded data of each scan. Every step moves on, so a walk ends after at most the file's
 * length.
 */
final class JpegWalk {
    static final int SOI = 0xD8;
    static final int EOI = 0xD9;
    static final int SOS = 0xDA;
    static final int APP1 = 0xE1;
    static final int APP2 = 0xE2;

    private static final int TEM = 0x01;

    sealed interface Step {}

    /**
     * A segment that is there as a whole.
     *
     * @param marker second octet of its marker
     * @param at where its marker begins
     * @param start where its content begins, after the length
     * @param length of its content, 0..65533
     */
    record Segment(int marker, long at, long start, int length) implements Step {
        long end() {
            return start + length;
        }

        /** SOF0 to SOF15 without DHT, JPG and DAC, which lie between them. */
        boolean isFrameHeader() {
            return marker >= 0xC0
                    && marker <= 0xCF
                    && marker != 0xC4
                    && marker != 0xC8
                    && marker != 0xCC;
        }
    }

    /** The end marker; {@code after} is the position behind it. */
    record End(long after) implements Step {}

    /** The file ends too early. */
    record TooShort(String why) implements Step {}

    /** This is not how a JPEG file goes on. */
    record Broken(String why) implements Step {}

    private final Octets octets;
    private long position;
    private boolean inScan;

    JpegWalk(Octets octets) {
        this.octets = octets;
    }

    /** The next step; after an End, TooShort or Broken there is none. */
    Step next() throws IOException {
        if (position == 0) {
            Step start = startOfImage();
            if (start != null) {
                return start;
            }
        }
        long at = position;
        if (inScan) {
            at = endOfScan(at);
            if (at < 0) {
                return new TooShort("the picture's end marker has not come yet");
            }
            inScan = false;
        }
        int first = octets.at(at);
        if (first < 0) {
            return new TooShort("the file ends before its next segment");
        }
        if (first != 0xFF) {
            return new Broken("no marker at octet " + at);
        }
        // fill octets may come before a marker
        long mark = at + 1;
        while (octets.at(mark) == 0xFF) {
            mark++;
        }
        int marker = octets.at(mark);
        if (marker < 0) {
            return new TooShort("the file ends within a marker");
        }
        if (marker == EOI) {
            return new End(mark + 1);
        }
        if (marker == TEM || isRestart(marker)) {
            position = mark + 1;
            return new Segment(marker, at, mark + 1, 0);
        }
        // 00 is no marker, 02 to BF are reserved, a second start belongs to no first picture
        if (marker < 0xC0 || marker == SOI) {
            return new Broken("marker FF %02X at octet %d".formatted(marker, at));
        }
        int length = octets.u16(mark + 1);
        if (length < 0) {
            return new TooShort("the file ends within a segment's length");
        }
        if (length < 2) {
            return new Broken("a segment of length " + length + " at octet " + at);
        }
        long end = mark + 1 + length;
        if (end > octets.size()) {
            return new TooShort("the file ends within a segment");
        }
        position = end;
        inScan = marker == SOS;
        return new Segment(marker, at, mark + 3, length - 2);
    }

    private Step startOfImage() throws IOException {
        int first = octets.at(0);
        int second = octets.at(1);
        if (first < 0) {
            return new TooShort("the file is empty");
        }
        if (first != 0xFF || (second >= 0 && second != SOI)) {
            return new Broken("it does not begin as a JPEG file does");
        }
        if (second < 0) {
            return new TooShort("the file has one octet so far");
        }
        position = 2;
        return null;
    }

    private static boolean isRestart(int marker) {
        return marker >= 0xD0 && marker <= 0xD7;
    }

    /** The marker after entropy-coded data; stuffed FF 00 and restart markers belong to it. */
    private long endOfScan(long from) throws IOException {
        long at = octets.nextFF(from);
        while (at >= 0) {
            int next = octets.at(at + 1);
            if (next < 0) {
                return -1;
            }
            if (next == 0xFF) {
                at++;
            } else if (next == 0 || isRestart(next)) {
                at = octets.nextFF(at + 2);
            } else {
                return at;
            }
        }
        return -1;
    }
}
