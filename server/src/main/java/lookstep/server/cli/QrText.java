package lookstep.server.cli;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.util.Map;

/** A QR code (ISO/IEC 18004) as text: two modules in each character, with its quiet zone. */
public final class QrText {
    private static final int QUIET_ZONE_MODULES = 4;

    private QrText() {}

    /**
     * For a terminal.
     *
     * @param colours true to set black and white by escape codes; otherwise light modules are drawn
     *     as blocks, right on a dark terminal
     */
    public static String of(String words, boolean colours) {
        BitMatrix dark;
        try {
            dark =
                    new QRCodeWriter()
                            .encode(
                                    words,
                                    BarcodeFormat.QR_CODE,
                                    0,
                                    0,
                                    Map.of(
                                            EncodeHintType.MARGIN,
                                            QUIET_ZONE_MODULES,
                                            EncodeHintType.ERROR_CORRECTION,
                                            ErrorCorrectionLevel.L));
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a code: " + words, e);
        }
        StringBuilder text = new StringBuilder();
        for (int y = 0; y < dark.getHeight(); y += 2) {
            text.append(colours ? "\u001b[97;40m" : "");
            for (int x = 0; x < dark.getWidth(); x++) {
                boolean upper = !dark.get(x, y);
                boolean lower = y + 1 < dark.getHeight() && !dark.get(x, y + 1);
                text.append(upper ? (lower ? '█' : '▀') : lower ? '▄' : ' ');
            }
            text.append(colours ? "\u001b[0m\n" : "\n");
        }
        return text.toString();
    }
}
