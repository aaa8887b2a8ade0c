package lookstep.server.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lookstep.server.TestPlans;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Event;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Event.FrameTaken;
import lookstep.server.live.Frame;
import lookstep.server.live.Link;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateStep;
import lookstep.server.live.RigTest;
import lookstep.server.order.Variety;
import lookstep.server.pictured.LookPictures.Origin;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.PlateBook.Standing;
import lookstep.server.plates.PlateTaker.Taking;
import lookstep.server.plates.PlatesNow;
import lookstep.server.tryout.Mix;
import lookstep.server.window.ShotItems;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The samples are the contract with the pages: what the server sends is what they were built
 * against.
 */
class SamplesTest {
    private static final Path SAMPLES = Path.of("..", "viewer", "samples");
    private static final long START = 1_795_599_843_500L;
    private static final long NOW = 1_795_600_000_000L;
    private static final Lightings LIGHTINGS = new Lightings(TestPlans.threeShots());
    private static final Lighting LIGHTING = LIGHTINGS.of(LiveState.NEW);
    private static final ObjectMapper JSON =
            JsonMapper.builder().enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES).build();

    private static final List<Link> LINKS =
            List.of(
                    new Link("lights", true, "simulated line, a packet every 30 ms"),
                    new Link("camera", true, "frames come in at /home/ava/frames"));

    private static final FrameParts FRAMES = new FrameParts(ZoneOffset.UTC, true);

    private static Messages.Around around(List<Link> links, CrewMessage.Pages pages) {
        return around(LiveState.NEW, links, pages, false, List.of());
    }

    private static Messages.Around around(LiveState state) {
        return around(
                state,
                LINKS,
                new CrewMessage.Pages(1, 2),
                true,
                List.of("set 3000 K on the camera: it takes no colour temperature from here"));
    }

    private static Messages.Around around(
            LiveState state,
            List<Link> links,
            CrewMessage.Pages pages,
            boolean canRelease,
            List<String> byHand) {
        return new Messages.Around(
                state.newestFrame(),
                state.newestFrame(),
                f -> "/frames/%d.jpg?v=%d".formatted(f.number(), f.file().modifiedEpochMillis()),
                Map.of(3, "being copied"),
                canRelease,
                byHand,
                links,
                pages,
                plan -> Variety.of(ShotItems.of(plan)),
                CHECKS,
                new PlanPart(1, "", ""),
                (plan, look) -> look.name().equals("rim only") ? PLATES : Origin.MODEL,
                plates(state),
                NOW);
    }

    private static final Origin PLATES =
            new Origin("1", "safe", "from plates, taken 20:31 on ‘Safe four’");

    /** While they are taken the newest frame was wrong; afterwards there is a doubt. */
    private static PlatesNow plates(LiveState state) {
        if (state.plates().run().isPresent()) {
            return new PlatesNow(
                    new Taking("take a frame now", true, false, 5, true),
                    Standing.TAKING,
                    "",
                    List.of());
        }
        return state.plates().set().isEmpty()
                ? PlatesNow.NONE
                : new PlatesNow(
                        new Taking("", false, false, 0, false),
                        Standing.READY,
                        "",
                        List.of("‘fill’ warm alone: even at full it brings little"));
    }

    private static PlateStep step(String name, String light, int which) {
        List<List<Double>> levels = new ArrayList<>();
        for (int l = 0; l < LIGHTING.plan().rig().size(); l++) {
            int emitters = LIGHTING.plan().rig().get(l).fixture().emitters().size();
            int first = l * 10;
            levels.add(
                    IntStream.range(0, emitters)
                            .mapToObj(e -> first + e == which ? 0.5 : 0.0)
                            .toList());
        }
        return new PlateStep(name, light, 0, levels);
    }

    private static LiveState withPlates(LiveState before) {
        LiveState state = before;
        for (Event e :
                List.of(
                        new Event.PlatesBegun(
                                "plates-1",
                                "warm-front",
                                "warm front, cold back",
                                LIGHTING.plan().look("warm front, cold back").camera(),
                                LIGHTING.hangsOn("warm front, cold back").orElseThrow(),
                                "",
                                true,
                                List.of(
                                        step("house only", "", -1),
                                        step("‘key’ warm alone", "key", 0),
                                        step("‘fill’ warm alone", "fill", 10),
                                        step("‘rim left’ red with white alone", "rim left", 20))),
                        new Event.PlateShown("plates-1", 0),
                        frame(4, ""),
                        new Event.FrameOfPlates(4, "plates-1"),
                        new Event.PlateTaken("plates-1", 0, 4, ""),
                        new Event.PlateShown("plates-1", 1),
                        frame(5, ""),
                        new Event.FrameOfPlates(5, "plates-1"),
                        new Event.PlateAsked(
                                "plates-1",
                                1,
                                "it shows the house only: taken too early or too late, or ‘key’ gives no light; look at its lead and its address",
                                false,
                                List.of()))) {
            state = state.after(e, START);
        }
        return state;
    }

    @Test
    void theCrewsMessageWhilePlatesAreTaken() throws IOException {
        assertSame("crew-plates", crew(withPlates(inTheMiddle())));
    }

    @Test
    void theCrewsMessageWithPlatesThatMayHaveMoved() throws IOException {
        LiveState state = withPlates(inTheMiddle());
        for (Event e :
                List.of(
                        new Event.PlateTaken("plates-1", 1, 5, ""),
                        new Event.PlateTaken("plates-1", 2, 5, "even at full it brings little"),
                        new Event.PlateTaken("plates-1", 3, 5, ""),
                        new Event.PlatesEnded("plates-1", ""))) {
            state = state.after(e, NOW - 21 * 60_000);
        }
        assertSame("crew-plates-ready", crew(state));
    }

    @Test
    void whereTheMixerBegins() throws IOException {
        assertSame("mix", mixStart());
    }

    private static MixJson.Start mixStart() {
        ShootPlan plan = TestPlans.threeShots();
        Shot shot = plan.shots().get(0);
        return MixJson.start(plan, shot, Mix.of(plan, plan.look(shot.look())));
    }

    /** Words as the search writes them; the search itself is not run for a sample. */
    @Test
    void looksThatDifferMost() throws IOException {
        ShootPlan plan = TestPlans.threeShots();
        Shot shot = plan.shots().get(0);
        assertSame(
                "suggest",
                new SuggestedPart(
                        "From plates, for ‘" + shot.name() + "’: 412 of 2916 looks pass.",
                        List.of(
                                card(plan, shot, "1-1", "only rim, cold", "", PLATES),
                                card(
                                        plan,
                                        shot,
                                        "1-2",
                                        "fill from behind",
                                        "move ‘fill’ behind them to the left (about 60 s)",
                                        Origin.MODEL))));
    }

    private static SuggestedPart.Card card(
            ShootPlan plan, Shot shot, String id, String name, String move, Origin origin) {
        return new SuggestedPart.Card(
                id,
                name,
                "against ‘" + shot.look() + "’: two lights off",
                List.of("key: off"),
                "f/5.6, 1/100 s, ISO 800, 4300 K",
                move,
                false,
                shot.id(),
                mixStart().mix(),
                CrewMessage.PicturePart.of("/suggested/" + id + ".jpg?v=1", origin, plan, shot));
    }

    /** Some of each weight, as the checks write them. */
    private static final ChecksPart CHECKS =
            new ChecksPart(
                    true,
                    1,
                    2,
                    List.of(
                            new ChecksPart.FindingPart(
                                    "depth-of-field/warm-front///",
                                    "Depth of field",
                                    "wrong",
                                    "warm-front",
                                    "Ines and Tovah are not sharp: the five stand 0.55 m deep",
                                    "f number set 5.6, f number needed 6.9",
                                    "f/7.1 holds all: ISO 3200 becomes 5000",
                                    true),
                            new ChecksPart.FindingPart(
                                    "separation/rim-only//Quill/",
                                    "Separation",
                                    "look",
                                    "rim-only",
                                    "Quill is 0.4 stops over what is behind",
                                    "stops 0.4, stops wanted 1",
                                    "",
                                    false),
                            new ChecksPart.FindingPart(
                                    "power////",
                                    "Power",
                                    "look",
                                    "",
                                    "2.9 kW on one circuit of 16 A",
                                    "watts 2900, watts of use 2944",
                                    "move the fill to another circuit",
                                    false),
                            new ChecksPart.FindingPart(
                                    "exposure/safe///",
                                    "Exposure",
                                    "good",
                                    "safe",
                                    "faces are exposed as metered",
                                    "stops over 0.1",
                                    "",
                                    false)));

    private static FrameTaken frame(int number, String shot) {
        return new FrameTaken(
                number,
                new FileMark("LS_000" + number + ".JPG", 1000, 1_795_599_990_000L),
                shot,
                "2026-11-25T13:59:%02d.000".formatted(number),
                "f/8, 1/125 s, ISO 3200, 3000 K",
                "body one",
                shot,
                List.of("Ines", "Marlo"),
                "",
                START);
    }

    private static LiveState inTheMiddle() {
        LiveState state = LiveState.NEW;
        for (Event e :
                List.of(
                        new Event.Ordered(List.of("safe", "warm-front", "rim-only"), List.of()),
                        new Event.Opened("hash"),
                        new Event.ClockStarted(),
                        new Event.WentTo(1, "safe"),
                        frame(1, "safe"),
                        frame(2, "safe"),
                        new Event.WentTo(2, "warm-front"),
                        frame(3, "warm-front"),
                        new Event.FrameJoined(1, new FileMark("LS_0001.DNG", 2000, 1), "", "", ""),
                        new Event.FrameMarked(1, Frame.Mark.KEPT),
                        new Event.FrameMarked(2, Frame.Mark.OUT),
                        new Event.FrameCopied(1, "LS_0001.JPG", "00", "/mnt/second/LS_0001.JPG"),
                        new Event.FrameCopied(1, "LS_0001.DNG", "00", "/mnt/second/LS_0001.DNG"),
                        new Event.FrameChecked(
                                3,
                                List.of(
                                        new Event.Remark(
                                                "depth of field",
                                                "wrong",
                                                "f/2.8 with five people 0.9 m deep: 0.25 m is sharp; f/8 holds them"),
                                        new Event.Remark(
                                                "exposure",
                                                "look",
                                                "faces are 1.3 stops under the plan")),
                                ""))) {
            state = state.after(e, START);
        }
        return state;
    }

    private static JsonNode sample(String name) throws IOException {
        return JSON.readTree(Files.readString(SAMPLES.resolve(name + ".json")));
    }

    /** As it goes over the wire: text, read again. */
    private static JsonNode sent(Object message) throws IOException {
        return JSON.readTree(JSON.writeValueAsString(message));
    }

    private static void assertSame(String name, Object message) throws IOException {
        if (Boolean.getBoolean("lookstep.samples.write")) {
            Files.writeString(
                    SAMPLES.resolve(name + ".json"),
                    JSON.writerWithDefaultPrettyPrinter().writeValueAsString(message) + "\n");
        }
        assertEquals(sample(name), sent(message));
    }

    @Test
    void theCrewsMessage() throws IOException {
        LiveState state = inTheMiddle();
        assertSame(
                "crew",
                new Messages(
                                LIGHTINGS,
                                FRAMES,
                                true,
                                lighting ->
                                        List.of(
                                                "The plan was edited since this shoot was last"
                                                        + " opened."),
                                ZoneOffset.UTC)
                        .crew(state, around(state)));
    }

    @Test
    void theCrewsMessageBeforeTheFirstStepWithTheLineDown() throws IOException {
        assertSame(
                "crew-ready",
                new Messages(LIGHTINGS, FRAMES, false, lighting -> List.of(), ZoneOffset.UTC)
                        .crew(
                                LiveState.NEW.after(new Event.Opened("hash"), START),
                                around(
                                        List.of(
                                                new Link(
                                                        "lights",
                                                        false,
                                                        "/dev/ttyUSB0: no adapter is there. Plug it in, or choose another line."),
                                                LINKS.get(1)),
                                        new CrewMessage.Pages(0, 1))));
    }

    private static CrewMessage crew(LiveState state) {
        return new Messages(LIGHTINGS, FRAMES, true, lighting -> List.of(), ZoneOffset.UTC)
                .crew(state, around(state));
    }

    @Test
    void theCrewsMessageWhileTheWorkLightIsOn() throws IOException {
        assertSame("crew-work-light", crew(LiveState.NEW.after(new Event.Opened("hash"), START)));
    }

    @Test
    void theCrewsMessageWhileASlotIsTested() throws IOException {
        RigTest second = new RigTest("fill", 1, 12);
        assertSame(
                "crew-test",
                crew(
                        LiveState.NEW
                                .after(new Event.Opened("hash"), START)
                                .after(new Event.Testing(second), START)));
    }

    @Test
    void theRig() throws IOException {
        assertSame("rig", RigParts.of(LIGHTING, Map.of(1, List.of("simulated line"))));
    }

    @Test
    void theBandsMessage() throws IOException {
        Messages messages =
                new Messages(LIGHTINGS, FRAMES, true, lighting -> List.of(), ZoneOffset.UTC);
        assertSame(
                "band",
                messages.band(
                        Optional.of(
                                new BandMessage.BandFrame(3, "/frames/3.jpg?v=1795599990000"))));
        assertSame(
                "band-waiting",
                new Messages(LIGHTINGS, FRAMES, false, lighting -> List.of(), ZoneOffset.UTC)
                        .band(Optional.empty()));
    }

    static Stream<Path> samples() throws IOException {
        try (Stream<Path> files = Files.list(SAMPLES)) {
            return files
                    .filter(
                            f ->
                                    f.toString().endsWith(".json")
                                            && !f.endsWith("alive.json")
                                            && !f.endsWith("plan.json"))
                    .sorted()
                    .toList()
                    .stream();
        }
    }

    /** The other states that pages are tried against have the shape of what the server sends. */
    @ParameterizedTest
    @MethodSource("samples")
    void everySampleHasTheShapeThatIsSent(Path file) throws IOException {
        JsonNode sample = JSON.readTree(Files.readString(file));
        Class<?> kind =
                switch (sample.path("kind").asText()) {
                    case "band" -> BandMessage.class;
                    case "rig" -> RigMessage.class;
                    case "crew" -> CrewMessage.class;
                    default -> sample.has("ranges") ? MixJson.Start.class : SuggestedPart.class;
                };
        JsonNode again = sent(JSON.treeToValue(sample, kind));
        assertEquals(
                JSON.readTree(numbersAsDecimals(sample)),
                JSON.readTree(numbersAsDecimals(again)),
                file.toString());
    }

    /** 8 and 8.0 are the same number to a page. */
    private static String numbersAsDecimals(JsonNode node) {
        return node.toString().replaceAll("(?<=[:\\[,])(-?\\d+)\\.0(?=[,}\\]])", "$1");
    }

    @Test
    void theSignOfLifeIsTheSample() throws IOException {
        assertEquals(sample("alive"), JSON.readTree(Push.ALIVE));
        assertTrue(Push.ALIVE.length() < 32);
    }
}
