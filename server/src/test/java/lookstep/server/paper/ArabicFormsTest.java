package lookstep.server.paper;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** By the names that the Unicode Character Database gives to shapes, as the JDK has them. */
class ArabicFormsTest {
    private static List<String> names(String text) {
        return text.codePoints().mapToObj(Character::getName).collect(Collectors.toList());
    }

    @Test
    void lettersJoinTheirNeighboursAndAfterRehBeginAnew() {
        assertEquals(
                List.of(
                        "ARABIC LETTER MEEM INITIAL FORM",
                        "ARABIC LETTER REH FINAL FORM",
                        "ARABIC LETTER YEH INITIAL FORM",
                        "ARABIC LETTER MEEM FINAL FORM"),
                names(ArabicForms.joined("\u0645\u0631\u064A\u0645")));
        assertEquals(
                List.of(
                        "ARABIC LETTER SEEN INITIAL FORM",
                        "ARABIC LETTER MEEM MEDIAL FORM",
                        "ARABIC FATHA",
                        "ARABIC LETTER YEH MEDIAL FORM",
                        "ARABIC LETTER ALEF FINAL FORM"),
                names(ArabicForms.joined("\u0633\u0645\u064E\u064A\u0627")));
    }

    @Test
    void aLetterAloneAndOtherScriptsStayAsTheyAre() {
        assertEquals("\u0645 x \u0631 \u05D3", ArabicForms.joined("\u0645 x \u0631 \u05D3"));
    }
}
