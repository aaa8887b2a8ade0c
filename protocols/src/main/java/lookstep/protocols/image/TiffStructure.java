package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.Optional;
import java.util.Set;

/**
 * Tells from its structure whether a file that is built on TIFF 6.0 (DNG and many other RAW kinds)
 * is whole: each directory, and each strip, tile and JPEG that a directory names, lies inside the
 * file. Reads the directories only, so it is quick however large the file is.
 *
 * <p>Whether the named room is already filled cannot be told: a writer that reserves the whole file
 * first is taken to have finished. Who watches a folder adds a short rest without growth.
 */
public final class TiffStructure {
    /** Strips and tiles that are looked at in one directory. */
    private static final int MOST_PIECES = 200_000;

    private static final int[][] PIECES = {
        {ExifTag.STRIP_OFFSETS, ExifTag.STRIP_BYTE_COUNTS},
        {ExifTag.TILE_OFFSETS, ExifTag.TILE_BYTE_COUNTS},
        {ExifTag.JPEG_OFFSET, ExifTag.JPEG_LENGTH}
    };

    private static final Set<Integer> NEEDED =
            Set.of(
                    ExifTag.STRIP_OFFSETS,
                    ExifTag.STRIP_BYTE_COUNTS,
                    ExifTag.TILE_OFFSETS,
                    ExifTag.TILE_BYTE_COUNTS,
                    ExifTag.SUB_DIRECTORIES);

    private TiffStructure() {}

    /** Looks at a file's bytes. */
    public static Wholeness wholeness(byte[] tiff) {
        try {
            return wholeness(Octets.of(tiff));
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    /**
     * Looks at a file, as long as it is now. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read
     */
    public static Wholeness wholeness(SeekableByteChannel tiff) throws IOException {
        return wholeness(Octets.of(tiff));
    }

    /**
     * Whether a file begins as a TIFF file does. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read
     */
    public static boolean begins(SeekableByteChannel file) throws IOException {
        return TiffBlock.of(Octets.of(file)).isPresent();
    }

    private static Wholeness wholeness(Octets octets) throws IOException {
        if (octets.size() < 8) {
            return mayBecome(octets)
                    ? new Wholeness.Partial(
                            octets.size() == 0
                                    ? "the file is empty"
                                    : "the file has %d octets so far".formatted(octets.size()))
                    : foreign();
        }
        Optional<TiffBlock> header = TiffBlock.of(octets);
        if (header.isEmpty()) {
            return foreign();
        }
        TiffBlock tiff = header.get();
        if (tiff.firstDirectory() < 8) {
            return new Wholeness.Foreign("it names no directory");
        }
        TiffTree tree = TiffTree.read(tiff);
        if (tree.missing().isPresent()) {
            return new Wholeness.Partial(
                    "the directory at octet " + tree.missing().get() + " has not come yet");
        }
        long end = 0;
        for (TiffTree.Node node : tree.directories()) {
            if (node.outside().stream().anyMatch(NEEDED::contains)) {
                return new Wholeness.Partial("a list of its parts has not come yet");
            }
            for (int[] tags : PIECES) {
                end = Math.max(end, end(tiff, node, tags[0], tags[1]));
            }
        }
        if (end == 0) {
            return new Wholeness.Foreign("it names no picture");
        }
        return end > octets.size()
                ? new Wholeness.Partial("%d of %d octets have come".formatted(octets.size(), end))
                : new Wholeness.Whole(end);
    }

    /** Where the last of such pieces ends; 0 if there is none. */
    private static long end(TiffBlock tiff, TiffTree.Node node, int offsets, int lengths)
            throws IOException {
        Optional<TiffBlock.Field> at = node.field(offsets);
        if (at.isEmpty()) {
            return 0;
        }
        long[] starts = tiff.numbers(at.get(), MOST_PIECES);
        Optional<TiffBlock.Field> sizes = node.field(lengths);
        long[] octets = sizes.isEmpty() ? new long[0] : tiff.numbers(sizes.get(), MOST_PIECES);
        long end = 0;
        for (int i = 0; i < starts.length; i++) {
            // a length that is missing is taken as one octet
            long length = i < octets.length ? octets[i] : 1;
            // a strip of offset 0 is one that is not stored, as in sparse files
            if (starts[i] != 0 && length != 0) {
                end = Math.max(end, starts[i] + length);
            }
        }
        return end;
    }

    /** Whether so few octets can be the beginning of a TIFF header. */
    private static boolean mayBecome(Octets octets) throws IOException {
        int first = octets.at(0);
        if (first >= 0 && first != 'I' && first != 'M') {
            return false;
        }
        int[] rest = first == 'I' ? new int[] {'I', 42, 0} : new int[] {'M', 0, 42};
        for (int i = 0; i < rest.length; i++) {
            int octet = octets.at(1 + i);
            if (octet >= 0 && octet != rest[i]) {
                return false;
            }
        }
        return true;
    }

    private static Wholeness foreign() {
        return new Wholeness.Foreign("it does not begin as a TIFF file does");
    }
}
