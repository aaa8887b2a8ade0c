package lookstep.server.plan.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;

/** From a path to text. */
final class PlanBytes {
    /** A plan of an hour with a hundred shots has some 30 kB. */
    static final int MOST_BYTES = 1_000_000;

    private static final Mark WHOLE_FILE = new Mark(0, 0);
    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private PlanBytes() {}

    /** The text; empty when a problem was reported. */
    static Optional<String> read(Path path, Problems problems) {
        try {
            if (Files.isDirectory(path)) {
                return fail(
                        problems,
                        "this is a directory",
                        "name the " + problems.kind().suffix() + " file in it");
            }
            if (Files.exists(path) && !Files.isRegularFile(path)) {
                return fail(
                        problems,
                        "this is not a plain file",
                        "name a " + problems.kind().suffix() + " file");
            }
            try (InputStream in = Files.newInputStream(path)) {
                return decode(in.readNBytes(MOST_BYTES + 1), problems);
            }
        } catch (NoSuchFileException e) {
            return fail(problems, "there is no such file", "check the path and the spelling");
        } catch (IOException | SecurityException e) {
            return fail(
                    problems,
                    "the file cannot be read (" + e.getClass().getSimpleName() + ")",
                    "check who may read it, and that the disk is still there");
        }
    }

    /** The text of the bytes; empty when a problem was reported. */
    static Optional<String> decode(byte[] bytes, Problems problems) {
        if (bytes.length > MOST_BYTES) {
            return fail(
                    problems,
                    "the file is larger than 1 MB, a " + problems.kind().noun() + " has a few kB",
                    "check that this is the " + problems.kind().noun() + " file");
        }
        CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
        CharBuffer out = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), out, true);
        String text = out.flip().toString();
        if (result.isError()) {
            problems.error(
                    after(text),
                    "the file is not UTF-8 text",
                    "save it as UTF-8; an editor calls that its encoding");
            return Optional.empty();
        }
        if (!text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK) {
            text = text.substring(1);
        }
        return control(text, problems) ? Optional.empty() : Optional.of(text);
    }

    /** YAML 1.2, 5.1: control characters other than tab and line ends are not allowed. */
    private static boolean control(String text, Problems problems) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            boolean fine = (c >= ' ' && c != 0x7f) || c == '\t' || c == '\n' || c == '\r';
            if (!fine) {
                problems.error(
                        after(text.substring(0, i)),
                        String.format("there is a control character (U+%04X) in the file", (int) c),
                        "delete it; if the file is full of them, it is no text file");
                return true;
            }
        }
        return false;
    }

    private static Mark after(String text) {
        int line = 1 + (int) text.chars().filter(c -> c == '\n').count();
        return new Mark(line, text.length() - text.lastIndexOf('\n'));
    }

    private static Optional<String> fail(Problems problems, String what, String mend) {
        problems.error(WHOLE_FILE, what, mend);
        return Optional.empty();
    }
}
