package lookstep.server.paper;

import java.io.IOException;
import java.io.OutputStream;

/** A plan as pages to hold in the hand. */
public final class CallSheet {
    private CallSheet() {}

    /**
     * Writes the sheet as PDF 1.6. The same sheet gives the same bytes.
     *
     * @param out is left open
     * @throws IOException if it cannot be written
     */
    public static void write(Sheet sheet, OutputStream out) throws IOException {
        try (Pages pages = new Pages(sheet)) {
            HeadPart.draw(pages, sheet);
            OrderPart.draw(pages, sheet);
            CautionsPart.draw(pages, sheet);
            RigPart.draw(pages, sheet);
            SettingsPart.draw(pages, sheet);
            pages.write(out);
        }
    }
}
