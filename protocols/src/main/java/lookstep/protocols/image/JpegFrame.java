package lookstep.protocols.image;

import java.io.IOException;
import java.util.Optional;

/**
 * The frame header of a picture (ITU-T T.81 B.2.2).
 *
 * @param process 0 baseline, 1 extended, 2 progressive, 3 lossless and so on: SOF0 to SOF15
 * @param bits of a sample
 * @param height pixels; 0 if it is only given after the first scan
 * @param width pixels
 * @param components 1 grey, 3 colour, 4 for print
 */
record JpegFrame(int process, int bits, int height, int width, int components) {
    /** Empty if it is not there (yet), or comes after too many segments. */
    static Optional<JpegFrame> read(Octets octets) throws IOException {
        JpegWalk walk = new JpegWalk(octets);
        for (int i = 0; i < JpegHeader.MOST; i++) {
            if (!(walk.next() instanceof JpegWalk.Segment segment)
                    || segment.marker() == JpegWalk.SOS) {
                return Optional.empty();
            }
            if (segment.isFrameHeader() && segment.length() >= 6) {
                long at = segment.start();
                return Optional.of(
                        new JpegFrame(
                                segment.marker() - 0xC0,
                                octets.at(at),
                                octets.u16(at + 1),
                                octets.u16(at + 3),
                                octets.at(at + 5)));
            }
        }
        return Optional.empty();
    }

    /** Whether screens show such a picture: 8 bits, grey or colour, not lossless. */
    boolean isForScreens() {
        return process <= 2
                && bits == 8
                && (components == 1 || components == 3)
                && width > 0
                && height > 0;
    }
}
