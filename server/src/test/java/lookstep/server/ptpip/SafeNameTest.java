package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import lookstep.server.disk.FreeName;
import lookstep.server.disk.HarmlessName;
import org.junit.jupiter.api.Test;

class SafeNameTest {
    private static String safe(String name) {
        return SafeName.of(name, 0x9100_0001, 0x3801);
    }

    @Test
    void goodNamesStayAsTheyAre() {
        for (String name : new String[] {"IMG_0001.JPG", "Bühne 2.jpg", "a-b (c).RAW", "中文.JPG"}) {
            assertEquals(name, safe(name));
        }
    }

    @Test
    void whatCannotBeInANameBecomesALine() {
        assertEquals("_.._a_b.JPG", safe("../../a\\b.JPG"));
        assertEquals("a_b_c.JPG", safe("a\0b\nc.JPG"));
        assertEquals("GPJ._gnp.JPG", safe("GPJ.\u202Egnp.JPG"));
        assertEquals("a_.JPG", safe("a\uD800.JPG"));
        assertEquals("a_b_c_d_e_f.JPG", safe("a:b*c?d\"e|f.JPG"));
    }

    @Test
    void aDotAtTheFrontWouldHideIt() {
        assertEquals("hidden.JPG", safe(".hidden.JPG"));
        assertEquals("part.JPG", safe(". .part.JPG. ."));
    }

    @Test
    void whereNothingIsLeftTheHandleIsTheName() {
        for (String name : new String[] {"", "..", ".", "/", "\0\0", "   "}) {
            assertEquals("object 91000001.JPG", safe(name), "of '" + name + "'");
        }
        assertEquals("object 00000007.bin", SafeName.of("", 7, 0x3000));
    }

    @Test
    void namesOfDevicesAreNoNames() {
        assertEquals("_CON", safe("CON"));
        assertEquals("_nul.JPG", safe("nul.JPG"));
        assertEquals("CONCERT.JPG", safe("CONCERT.JPG"));
    }

    @Test
    void aLongNameIsCutAndKeepsItsEnding() {
        assertEquals("x".repeat(196) + ".JPG", safe("x".repeat(250) + ".JPG"));
        String wide = safe("\u4E2D".repeat(250) + ".JPG");
        assertTrue(wide.endsWith("\u4E2D.JPG"), wide);
        assertEquals(199, wide.getBytes(StandardCharsets.UTF_8).length);
    }

    @Test
    void numbersGoBeforeTheEnding() {
        assertEquals("A (2).JPG", FreeName.nth("A.JPG", 2));
        assertEquals("A (3)", FreeName.nth("A", 3));
    }

    @Test
    void anyUnitsAtAllGiveASafeName() {
        Random random = new Random(7);
        for (int round = 0; round < 20_000; round++) {
            StringBuilder name = new StringBuilder();
            int units = random.nextInt(256);
            int most = random.nextBoolean() ? 128 : 0x10000;
            for (int i = 0; i < units; i++) {
                name.append((char) random.nextInt(most));
            }
            String safe = safe(name.toString());
            int octets = safe.getBytes(StandardCharsets.UTF_8).length;
            assertTrue(octets > 0 && octets <= HarmlessName.MOST_BYTES + 1, octets + " octets");
            assertFalse(safe.startsWith(".") || safe.endsWith(".") || safe.contains("/"), safe);
            assertTrue(safe.codePoints().allMatch(HarmlessName::isShown), safe);
        }
    }
}
