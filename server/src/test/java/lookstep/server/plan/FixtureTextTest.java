package lookstep.server.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import org.junit.jupiter.api.Test;

class FixtureTextTest {
    @Test
    void saysWhatWasUnderstood() {
        Fixture panel =
                new Fixture(
                        "panel",
                        "our panel",
                        List.of(
                                new Emitter("green", 0.17, 0.70, 80.25),
                                new Emitter("red", 0.69, 0.31, 500),
                                // on the Planckian locus, see GenericFixtures
                                new Emitter("warm", 0.4599, 0.4106, 1600),
                                // CIE illuminant D65: 6504 K, Duv +0.0032
                                new Emitter("cool", 0.3127, 0.3290, 2000)),
                        new DimmingCurve.Power(2.2),
                        92.5,
                        150,
                        List.of(
                                new Mode(
                                        "each",
                                        List.of(
                                                new Channel.Emitter(0, 1),
                                                new Channel.Emitter(1, 1),
                                                new Channel.Emitter(2, 1),
                                                new Channel.Emitter(3, 2))),
                                new Mode(
                                        "white",
                                        List.of(
                                                new Channel.Dimmer(2),
                                                new Channel.Whites(2, 3, 1, DimmingCurve.LINEAR),
                                                new Channel.Tint(
                                                        List.of(0.3, 0.0, 0.0, 0.0),
                                                        List.of(0.0, 0.2, 0.0, 0.0),
                                                        1),
                                                new Channel.Fixed(1, 255, "shutter open")),
                                        1.25)));
        assertEquals(
                """
                our panel
                  id      panel
                  beam    92.5 degrees at half intensity, bare
                  mains   150 W at most
                  curve   gamma 2.2: at half the code 21.8 % of the light

                Emitters, each alone and at full
                  green    80.3 lx at 1 m  xy 0.1700, 0.7000
                  red       500 lx at 1 m  xy 0.6900, 0.3100
                  warm     1600 lx at 1 m  xy 0.4599, 0.4106  2700 K, Duv +0.0000
                  cool     2000 lx at 1 m  xy 0.3127, 0.3290  6500 K, Duv +0.0032

                Mode 'each': 5 slots
                    1  green
                    2  red
                    3  warm
                    4  cool, coarse
                    5  cool, fine
                  gives 4180 lx at 1 m with all at full
                  dims by 17.6 stops, on paper; below that it is dark

                Mode 'white': 5 slots
                    1  dimmer, coarse
                    2  dimmer, fine
                    3  warm to cool
                    4  greener and pinker
                    5  must stay at 255: shutter open
                  gives 2000 lx at 1 m as warm, 2500 lx as cool
                  dims by 35.2 stops, on paper; below that it is dark

                Notes
                  the beam is a guess
                """,
                FixtureText.of(List.of(panel), List.of("the beam is a guess")));
    }

    @Test
    void everyBuiltInOneHasAText() {
        for (Fixture fixture : GenericFixtures.all()) {
            String text = FixtureText.of(List.of(fixture), List.of());
            for (Mode mode : fixture.modes()) {
                assertTrue(text.contains("Mode '" + mode.id() + "'"), text);
            }
        }
        assertTrue(
                FixtureText.of(List.of(GenericFixtures.DIMMER), List.of())
                        .contains("Mode '8-bit': 1 slot\n"));
    }
}
