package lookstep.protocols;

import java.io.ByteArrayOutputStream;
import java.util.HexFormat;

/** Octets as people read them: hex, blanks as one likes, a comment after each {@code #}. */
public final class Annotated {
    private Annotated() {}

    public static byte[] bytes(String text) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        text.lines()
                .map(line -> line.replaceAll("#.*", "").replaceAll("\\s", ""))
                .forEach(hex -> out.writeBytes(HexFormat.of().parseHex(hex)));
        return out.toByteArray();
    }
}
