package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import lookstep.protocols.ptpip.DevicePropDesc;
import lookstep.protocols.ptpip.DevicePropDesc.Form;
import lookstep.protocols.ptpip.PropertyValue;
import lookstep.protocols.ptpip.PropertyValue.Whole;
import lookstep.server.plan.CameraSettings;
import org.junit.jupiter.api.Test;

/** One stop is twice the light: twice the time or ISO, the f-number by the root of two. */
class DialChoiceTest {
    private static final CameraSettings PLAN = new CameraSettings(8, 1.0 / 60, 1600, 5600);

    private static Form oneOf(long... values) {
        List<PropertyValue> all =
                Arrays.stream(values).<PropertyValue>mapToObj(Whole::new).toList();
        return new Form.OneOf(all);
    }

    private static DialChoice choice(Dial dial, boolean settable, long now, Form form) {
        return DialChoice.of(
                dial,
                new DevicePropDesc(
                        dial.property().code(),
                        dial.property().type(),
                        settable,
                        new Whole(now),
                        new Whole(now),
                        form),
                PLAN);
    }

    @Test
    void theNearestIsTaken() {
        assertEquals(
                new DialChoice.Set(800),
                choice(Dial.F_NUMBER, true, 560, oneOf(710, 800, 900, 1100)));
        assertEquals(new DialChoice.Set(167), choice(Dial.TIME, true, 80, oneOf(200, 167, 125)));
        assertEquals(
                new DialChoice.Set(1600), choice(Dial.ISO, true, 100, oneOf(100, 1600, 65_535)));
    }

    /** f/8 by the root of two to the power of 1/6 is f/8.48; a little more is too far. */
    @Test
    void aSixthOfAStopIsNearEnoughAndNoMore() {
        assertEquals(new DialChoice.Set(847), choice(Dial.F_NUMBER, true, 560, oneOf(847)));
        assertEquals(
                new DialChoice.ByHand("the nearest that it takes from here is f/9"),
                choice(Dial.F_NUMBER, true, 560, oneOf(850)));
        // 1600 by two to the power of 1/6 is 1796
        assertEquals(new DialChoice.Set(1795), choice(Dial.ISO, true, 100, oneOf(1795)));
        assertEquals(
                new DialChoice.ByHand("the nearest that it takes from here is ISO 2000"),
                choice(Dial.ISO, true, 100, oneOf(1800)));
    }

    @Test
    void whatStandsRightIsLeftEvenIfItCannotBeSet() {
        assertEquals(new DialChoice.Stands(), choice(Dial.F_NUMBER, false, 800, new Form.Any()));
        assertEquals(new DialChoice.Stands(), choice(Dial.TIME, true, 167, oneOf(80)));
    }

    @Test
    void whatCannotBeSetIsLeftToTheHand() {
        assertEquals(
                new DialChoice.ByHand("it takes no ISO from here"),
                choice(Dial.ISO, false, 100, oneOf(1600)));
        assertEquals(
                new DialChoice.ByHand("it names no ISO that it takes from here"),
                choice(Dial.ISO, true, 100, oneOf()));
    }

    @Test
    void aRangeIsTakenInItsSteps() {
        Form range = new Form.Range(new Whole(100), new Whole(2000), new Whole(150));
        // 100, 250 ... 1600
        assertEquals(new DialChoice.Set(1600), choice(Dial.ISO, true, 100, range));
        Form coarse = new Form.Range(new Whole(100), new Whole(5000), new Whole(1000));
        assertEquals(
                new DialChoice.ByHand("the nearest that it takes from here is ISO 2000"),
                choice(Dial.ISO, true, 100, coarse));
        Form turned = new Form.Range(new Whole(5000), new Whole(100), new Whole(0));
        assertEquals(
                new DialChoice.ByHand("it names no ISO that it takes from here"),
                choice(Dial.ISO, true, 100, turned));
    }

    @Test
    void whereTheCameraNamesNoValuesTheWantedOneIsTried() {
        assertEquals(new DialChoice.Set(800), choice(Dial.F_NUMBER, true, 560, new Form.Any()));
        DevicePropDesc iso =
                new DevicePropDesc(
                        Dial.ISO.property().code(),
                        Dial.ISO.property().type(),
                        true,
                        new Whole(100),
                        new Whole(100),
                        new Form.Any());
        // more than 16 bits hold
        assertEquals(
                new DialChoice.ByHand("it names no ISO that it takes from here"),
                DialChoice.of(Dial.ISO, iso, new CameraSettings(8, 1, 102_400, 5600)));
    }
}
