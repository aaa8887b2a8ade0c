package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.List;

/**
 * Tells from its structure whether a JPEG file is whole: the first picture's end marker is there,
 * and every further picture that its MPF index names lies inside the file (ITU-T T.81 annex B; CIPA
 * DC-007). Reads at most the file once, through a window of 64 KiB.
 *
 * <p>A file whose MPF index names pictures that were cut off for good stays partial for ever: who
 * watches a folder needs a second rule for such a file, such as a size that no longer changes. Of a
 * further picture only the beginning is looked at: a writer that reserves room for the whole file
 * first, and is within that picture, is taken to have finished.
 */
public final class JpegStructure {
    private JpegStructure() {}

    /** Looks at a file's bytes. */
    public static Wholeness wholeness(byte[] jpeg) {
        try {
            return wholeness(Octets.of(jpeg));
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    /**
     * Looks at a file, as long as it is now. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read
     */
    public static Wholeness wholeness(SeekableByteChannel jpeg) throws IOException {
        return wholeness(Octets.of(jpeg));
    }

    static Wholeness wholeness(Octets octets) throws IOException {
        JpegWalk walk = new JpegWalk(octets);
        boolean frame = false;
        boolean scan = false;
        long needed = 0;
        while (true) {
            JpegWalk.Step step = walk.next();
            if (step instanceof JpegWalk.Segment segment) {
                frame |= segment.isFrameHeader();
                scan |= segment.marker() == JpegWalk.SOS;
                if (segment.marker() == JpegWalk.APP2) {
                    List<MpfIndex.Entry> entries = MpfIndex.read(octets, segment);
                    for (MpfIndex.Entry entry : entries) {
                        // known before the scan is searched, which spares the search
                        if (entry.end() > octets.size()) {
                            return new Wholeness.Partial(
                                    "a further picture in the file has not come yet");
                        }
                        if (octets.u16(entry.start()) == 0) {
                            // a writer that reserved the room first
                            return new Wholeness.Partial(
                                    "a further picture in the file is not written yet");
                        }
                        needed = Math.max(needed, entry.end());
                    }
                }
            } else if (step instanceof JpegWalk.End end) {
                return frame && scan
                        ? new Wholeness.Whole(Math.max(needed, end.after()))
                        : new Wholeness.Foreign("it ends without a picture");
            } else if (step instanceof JpegWalk.TooShort tooShort) {
                return new Wholeness.Partial(tooShort.why());
            } else if (step instanceof JpegWalk.Broken broken) {
                return new Wholeness.Foreign(broken.why());
            }
        }
    }
}
