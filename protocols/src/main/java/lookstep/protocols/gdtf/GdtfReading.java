package lookstep.protocols.gdtf;

import java.util.List;

/** What came of reading a GDTF file. */
public sealed interface GdtfReading {
    /**
     * The file could be read.
     *
     * @param notes what in it could not, by place; empty if all was well
     */
    record Good(FixtureType type, List<GdtfNote> notes) implements GdtfReading {
        public Good {
            notes = List.copyOf(notes);
        }
    }

    /**
     * The file could not be read.
     *
     * @param line of description.xml, from 1; 0 if it is about the archive
     * @param column of description.xml, from 1; 0 if it is about the archive
     * @param what what is wrong
     * @param mend what to do about it
     */
    record Bad(int line, int column, String what, String mend) implements GdtfReading {
        /** One line: {@code description.xml:LINE:COLUMN: what; mend}. */
        public String text() {
            String place = line == 0 ? "" : "description.xml:" + line + ":" + column + ": ";
            return place + what + "; " + mend;
        }
    }
}
