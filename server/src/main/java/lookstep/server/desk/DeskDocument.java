package lookstep.server.desk;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import lookstep.protocols.fixture.Fixture;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.KnownWords;

/**
 * The plan file as the plan editor gets it.
 *
 * @param file its name
 * @param revision one more with each change
 * @param undo what would be taken back, in words, or null
 * @param redo what would be made again, in words, or null
 * @param problem what is wrong with the file as it is now; empty if nothing
 * @param says what came of the newest change; empty if there is nothing to say
 * @param document the file as plain JSON, just as it is written
 * @param known what may be chosen
 */
record DeskDocument(
        String file,
        long revision,
        String undo,
        String redo,
        String problem,
        String says,
        JsonNode document,
        Known known) {
    /** What may be chosen from. */
    record Known(
            List<FixtureWords> fixtures,
            List<String> skin,
            List<String> hair,
            List<String> clothes,
            List<String> surfaces,
            List<String> modifiers,
            List<String> framings,
            List<String> arrangements) {
        /** The kinds of light that are built in, and those that the rig has already. */
        static Known of(List<Fixture> builtIn, ShootPlan plan) {
            Map<String, Fixture> all = new TreeMap<>();
            Stream.concat(builtIn.stream(), plan.rig().stream().map(Light::fixture))
                    .forEach(f -> all.put(f.id(), f));
            KnownWords words = KnownWords.ALL;
            return new Known(
                    all.values().stream().map(FixtureWords::of).toList(),
                    words.skin(),
                    words.hair(),
                    words.clothes(),
                    words.surfaces(),
                    words.modifiers(),
                    words.framings(),
                    words.arrangements());
        }
    }

    /** A kind of light. */
    record FixtureWords(String id, String name, List<ModeWords> modes) {
        static FixtureWords of(Fixture fixture) {
            return new FixtureWords(
                    fixture.id(),
                    fixture.name(),
                    fixture.modes().stream().map(m -> new ModeWords(m.id(), m.slots())).toList());
        }
    }

    /** One of its modes, and how many slots it takes. */
    record ModeWords(String id, int slots) {}
}
