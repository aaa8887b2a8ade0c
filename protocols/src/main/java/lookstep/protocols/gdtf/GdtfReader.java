package lookstep.protocols.gdtf;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * Reads GDTF files (DIN SPEC 15800:2022-02, GDTF 1.2; older ones as well). Never throws for what a
 * file has, and takes bounded time and memory for any.
 */
public final class GdtfReader {
    private static final String DESCRIPTION = "description.xml";

    private GdtfReader() {}

    /** Reads the file at {@code path}. */
    public static GdtfReading read(Path path) {
        if (!Files.exists(path)) {
            return new GdtfReading.Bad(0, 0, "there is no such file", "write the path of one");
        }
        // a pipe or a device might never end
        if (!Files.isRegularFile(path)) {
            return new GdtfReading.Bad(
                    0, 0, "this is no file", "write the path of a .gdtf file itself");
        }
        try (InputStream in = Files.newInputStream(path)) {
            return read(in);
        } catch (IOException | SecurityException e) {
            return cannotRead(e);
        }
    }

    /** Reads a stream to its end; does not close it. */
    public static GdtfReading read(InputStream in) {
        try {
            return read(in.readNBytes(Limits.ARCHIVE_OCTETS + 1));
        } catch (IOException e) {
            return cannotRead(e);
        }
    }

    /** Reads a file's bytes. */
    public static GdtfReading read(byte[] archive) {
        Notes notes = new Notes();
        try {
            if (archive.length > Limits.ARCHIVE_OCTETS) {
                throw new Unreadable(
                        "the file is longer than %d MiB".formatted(Limits.ARCHIVE_OCTETS >> 20),
                        "export it without its 3D models");
            }
            Element root = XmlTree.read(description(archive, notes));
            FixtureType type = FixtureTypeReader.read(root, notes);
            return new GdtfReading.Good(type, notes.all());
        } catch (Unreadable e) {
            return e.reading();
        } catch (RuntimeException e) {
            // A fault of this reader. Whoever stands on the set can go on without the file.
            return new GdtfReading.Bad(
                    0,
                    0,
                    "Lookstep stumbles over this file (" + e.getClass().getSimpleName() + ")",
                    "use a generic fixture, and send us the file");
        }
    }

    private static GdtfReading.Bad cannotRead(Exception e) {
        return new GdtfReading.Bad(
                0,
                0,
                "the file cannot be read: " + Shown.of(String.valueOf(e.getMessage())),
                "look whether you may read it and whether the disk is well");
    }

    private static byte[] description(byte[] octets, Notes notes) throws Unreadable {
        ZipArchive archive = new ZipArchive(octets);
        List<ZipArchive.Entry> same =
                archive.entries().stream()
                        .filter(e -> e.name().equalsIgnoreCase(DESCRIPTION))
                        .toList();
        List<ZipArchive.Entry> nested =
                archive.entries().stream().filter(GdtfReader::isNested).toList();
        if (same.size() > 1) {
            throw new Unreadable(
                    "the archive has %d files description.xml".formatted(same.size()),
                    "do not trust this file; fetch it from its maker again");
        }
        if (same.isEmpty()) {
            throw missing(archive, nested);
        }
        if (!same.get(0).name().equals(DESCRIPTION)) {
            notes.add("'%s' should be written description.xml".formatted(same.get(0).name()));
        }
        if (!nested.isEmpty()) {
            notes.add("'%s' is not read".formatted(Shown.of(nested.get(0).name())));
        }
        return archive.content(same.get(0), Limits.XML_OCTETS);
    }

    private static boolean isNested(ZipArchive.Entry entry) {
        String name = entry.name().toLowerCase(Locale.ROOT).replace('\\', '/');
        return name.endsWith("/" + DESCRIPTION);
    }

    private static Unreadable missing(ZipArchive archive, List<ZipArchive.Entry> nested) {
        if (!nested.isEmpty()) {
            return new Unreadable(
                    "description.xml is not at the top of the archive but is '%s'"
                            .formatted(Shown.of(nested.get(0).name())),
                    "pack the files again without the folder around them");
        }
        return archive.entries().stream()
                .filter(e -> e.name().toLowerCase(Locale.ROOT).endsWith(".gdtf"))
                .findFirst()
                .map(
                        inner ->
                                new Unreadable(
                                        "the archive is packed around '%s'"
                                                .formatted(Shown.of(inner.name())),
                                        "unpack it and give that file"))
                .orElseGet(
                        () ->
                                new Unreadable(
                                        "the archive has no description.xml",
                                        "give a .gdtf file; this is another kind of zip"));
    }
}
