package lookstep.server.paper;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import lookstep.server.disk.FreeName;

/** A sheet in a file that is whole or not there. */
public final class PdfFile {
    private static final byte[] BEGINS = "%PDF-".getBytes(StandardCharsets.US_ASCII);

    private PdfFile() {}

    /**
     * Writes the sheet; a former PDF of this name is replaced in one step.
     *
     * @throws FileSystemException if something of this name is there that is no PDF; it stays
     * @throws IOException if it cannot be written; nothing is left of it then
     */
    public static void write(Sheet sheet, Path file) throws IOException {
        refuse(file);
        Path part = FreeName.part(file);
        Files.deleteIfExists(part);
        try {
            try (FileChannel channel =
                    FileChannel.open(
                            part, StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW)) {
                OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel));
                CallSheet.write(sheet, out);
                out.flush();
                channel.force(true);
            }
            refuse(file);
            Files.move(
                    part,
                    file,
                    StandardCopyOption.ATOMIC_MOVE,
                    StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private static void refuse(Path file) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null && !Files.isDirectory(folder)) {
            throw new NoSuchFileException(folder.toString());
        }
        if (!Files.exists(file)) {
            return;
        }
        boolean pdf = false;
        if (Files.isRegularFile(file)) {
            try (InputStream in = Files.newInputStream(file)) {
                pdf = Arrays.equals(in.readNBytes(BEGINS.length), BEGINS);
            }
        }
        if (!pdf) {
            throw new FileAlreadyExistsException(
                    file.toString(), null, "it is there already and is no PDF, so it stays");
        }
    }
}
