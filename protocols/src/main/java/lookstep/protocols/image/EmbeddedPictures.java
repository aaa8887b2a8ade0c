package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.EmbeddedPicture.Kind;

/**
 * Finds the smaller pictures inside a picture file without decoding any: in a JPEG the Exif
 * thumbnail (CIPA DC-008, IFD1) and the large thumbnails of the MPF index (CIPA DC-007); in a file
 * that is built on TIFF (TIFF 6.0, ISO 12234-2, DNG) each JPEG that a directory names, by
 * JPEGInterchangeFormat or as a single strip of Compression 6 or 7. What leads nowhere becomes a
 * note.
 *
 * <p>Two kinds more: RW2, which is TIFF but for its number, and RAF (see {@link RawHead}).
 *
 * <p>Of each picture only the beginning is looked at. Whether it is whole, {@link BareJpeg} tells.
 * Maker notes are left out.
 */
public final class EmbeddedPictures {
    private static final int MOST_NOTES = 50;

    /** Places that are looked at: more than any camera names in one file. */
    private static final int MOST_CANDIDATES = 200;

    /** In RW2 files (read in a public one): a tag whose value is a JPEG. */
    private static final int WHOLE_JPEG = 0x002E;

    private static final int OLD_JPEG = 6;
    private static final int JPEG = 7;
    private static final long RGB = 2;
    private static final long Y_CB_CR = 6;

    /**
     * What was found.
     *
     * @param pictures in the order of the file's directories, at most 200
     * @param notes what could not be used, in plain words
     */
    public record Reading(List<EmbeddedPicture> pictures, List<String> notes) {
        public Reading {
            pictures = List.copyOf(pictures);
            notes = List.copyOf(notes);
        }
    }

    private final Octets file;
    private final List<EmbeddedPicture> pictures = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private int candidates;

    private EmbeddedPictures(Octets file) {
        this.file = file;
    }

    /** Those in a file's bytes. */
    public static Reading of(byte[] file) {
        try {
            return of(Octets.of(file));
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    /**
     * Those in a file. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read, whatever is in it
     */
    public static Reading of(SeekableByteChannel file) throws IOException {
        return of(Octets.of(file));
    }

    private static Reading of(Octets octets) throws IOException {
        EmbeddedPictures found = new EmbeddedPictures(octets);
        Optional<TiffBlock> tiff = TiffBlock.of(octets);
        Optional<Octets> raf = RawHead.picture(octets);
        if (tiff.isPresent()) {
            found.inTiff(tiff.get());
        } else if (raf.isPresent()) {
            found.candidate(Kind.RAW_PREVIEW, raf.get().start(), raf.get().size());
        } else {
            found.inJpeg();
        }
        return new Reading(found.pictures, found.notes);
    }

    private void inJpeg() throws IOException {
        JpegHeader header = JpegHeader.read(file);
        header.trouble().ifPresent(this::note);
        Optional<Octets> exif = header.exif(file);
        if (exif.isPresent()) {
            thumbnail(exif.get());
        }
        for (JpegWalk.Segment segment : header.segments()) {
            if (segment.marker() == JpegWalk.APP2) {
                for (MpfIndex.Entry entry : MpfIndex.read(file, segment)) {
                    if (entry.isLargeThumbnail()) {
                        candidate(Kind.MPF_LARGE, entry.start(), entry.size());
                    }
                }
            }
        }
    }

    /** The second directory of the Exif block; its offsets count from the byte order mark. */
    private void thumbnail(Octets exif) throws IOException {
        Optional<TiffBlock> block = TiffBlock.of(exif);
        if (block.isEmpty()) {
            note("the Exif has no byte order mark");
            return;
        }
        TiffBlock tiff = block.get();
        long second = tiff.directory(tiff.firstDirectory()).next();
        if (second == 0) {
            return;
        }
        TiffBlock.Directory directory = tiff.directory(second);
        directory.notes().forEach(this::note);
        TiffTree.Node node = new TiffTree.Node(second, directory.fields(), directory.outside());
        Optional<Long> at = number(tiff, node, ExifTag.JPEG_OFFSET);
        Optional<Long> length = number(tiff, node, ExifTag.JPEG_LENGTH);
        if (at.isEmpty() || length.isEmpty()) {
            return;
        }
        if (at.get() + length.get() > exif.size()) {
            note("the Exif thumbnail leads out of the Exif");
            return;
        }
        candidate(Kind.EXIF_THUMBNAIL, exif.start() + at.get(), length.get());
    }

    private void inTiff(TiffBlock tiff) throws IOException {
        TiffTree tree = TiffTree.read(tiff);
        tree.notes().forEach(this::note);
        for (TiffTree.Node node : tree.directories()) {
            Optional<Long> at = number(tiff, node, ExifTag.JPEG_OFFSET);
            Optional<Long> length = number(tiff, node, ExifTag.JPEG_LENGTH);
            if (at.isPresent() && length.isPresent()) {
                candidate(Kind.RAW_PREVIEW, at.get(), length.get());
            }
            Optional<TiffBlock.Field> whole = node.field(WHOLE_JPEG);
            if (whole.isPresent() && whole.get().type() == TiffBlock.UNDEFINED) {
                candidate(Kind.RAW_PREVIEW, whole.get().valueAt(), whole.get().octets());
            }
            if (isJpegStrip(tiff, node)) {
                candidate(
                        Kind.RAW_PREVIEW,
                        number(tiff, node, ExifTag.STRIP_OFFSETS).orElse(0L),
                        number(tiff, node, ExifTag.STRIP_BYTE_COUNTS).orElse(0L));
            }
        }
    }

    private static boolean isJpegStrip(TiffBlock tiff, TiffTree.Node node) throws IOException {
        Optional<TiffBlock.Field> strips = node.field(ExifTag.STRIP_OFFSETS);
        if (strips.isEmpty() || strips.get().count() != 1) {
            return false;
        }
        long compression = number(tiff, node, ExifTag.COMPRESSION).orElse(0L);
        // some kinds leave out what the colours mean; what the JPEG itself says is looked at later
        long colours = number(tiff, node, ExifTag.PHOTOMETRIC_INTERPRETATION).orElse(RGB);
        return (compression == OLD_JPEG || compression == JPEG)
                && (colours == RGB || colours == Y_CB_CR);
    }

    private static Optional<Long> number(TiffBlock tiff, TiffTree.Node node, int tag)
            throws IOException {
        Optional<TiffBlock.Field> field = node.field(tag);
        if (field.isEmpty()) {
            return Optional.empty();
        }
        long[] numbers = tiff.numbers(field.get(), 1);
        return numbers.length == 0 ? Optional.empty() : Optional.of(numbers[0]);
    }

    private void candidate(Kind kind, long start, long length) throws IOException {
        candidates++;
        if (candidates > MOST_CANDIDATES) {
            note("more than " + MOST_CANDIDATES + " pictures: the rest is left out");
            return;
        }
        String name = "the picture at octet " + start;
        if (length == 0 || pictures.stream().anyMatch(picture -> picture.start() == start)) {
            return;
        }
        if (start <= 0 || start + length > file.size()) {
            note(name + " leads out of the file");
            return;
        }
        Octets picture = file.part(start, length);
        if (picture.u16(0) != 0xFFD8 || picture.at(2) != 0xFF) {
            note(name + " is no JPEG");
            return;
        }
        Optional<JpegFrame> frame = JpegFrame.read(picture);
        if (frame.isEmpty()) {
            note(name + " has no frame header");
        } else if (!frame.get().isForScreens()) {
            // as the raw data of some kinds: lossless, or more than 8 bits
            note(
                    "%s is not for screens: SOF%d, %d bits, %d components"
                            .formatted(
                                    name,
                                    frame.get().process(),
                                    frame.get().bits(),
                                    frame.get().components()));
        } else {
            pictures.add(
                    new EmbeddedPicture(
                            kind, start, length, frame.get().width(), frame.get().height()));
        }
    }

    private void note(String note) {
        if (notes.size() < MOST_NOTES) {
            notes.add(note);
        }
    }
}
