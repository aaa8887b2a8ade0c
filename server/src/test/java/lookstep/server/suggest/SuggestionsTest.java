package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.Placing;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.PlanDocument;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Sight;
import lookstep.server.prediction.Staging;
import org.junit.jupiter.api.Test;

class SuggestionsTest {
    private static final Options QUICK = Options.usual(4).listing(1500, 1);

    private final ShootPlan plan = Rigs.four();
    private final Shot shot = Rigs.first(plan);
    private final Suggestions all = Suggestions.modelled(plan, shot, QUICK);

    private static List<Suggestion> every(Suggestions s) {
        List<Suggestion> every = new ArrayList<>(s.inPlace());
        every.addAll(s.moved());
        return every;
    }

    @Test
    void asManyAsAskedForInTheirOrderAndAllPass() {
        assertEquals(4, all.inPlace().size());
        assertEquals(2, all.moved().size());
        for (Suggestion s : every(all)) {
            assertTrue(
                    s.passes().refusal(new Passes.Allowed(false, false)).isEmpty(), s.toString());
            assertFalse(s.why().isBlank());
            assertEquals(4, s.lights().size());
            assertEquals("", s.inPlan());
        }
        List<Look> looks = all.inPlace().stream().map(Suggestion::look).toList();
        StepOrder order = StepOrder.of(plan.look("safe"), looks, plan.around().times());
        assertEquals(
                order.totalSeconds(),
                all.inPlace().stream().mapToDouble(Suggestion::seconds).sum(),
                1e-9);
    }

    @Test
    void theLeastDifferenceIsThatOfTheNearestAndTheBoundHolds() {
        double least =
                all.inPlace().stream().mapToDouble(s -> s.nearest().difference()).min().getAsDouble();
        assertEquals(all.quality().least(), least, 1e-5);
        assertTrue(all.quality().bestPossible() >= all.quality().least());
        assertTrue(all.quality().gap() >= 0 && all.quality().gap() < 1);
    }

    @Test
    void namesAreShortAndNobodyElses() {
        Set<String> names = new HashSet<>();
        plan.looks().forEach(l -> names.add(l.name().toLowerCase(Locale.ROOT)));
        for (Suggestion s : every(all)) {
            assertTrue(names.add(s.look().name().toLowerCase(Locale.ROOT)), s.look().name());
            assertTrue(s.look().name().length() <= 60, s.look().name());
        }
    }

    @Test
    void theSameRigHasTheSameSuggestions() {
        Suggestions again = Suggestions.modelled(plan, shot, QUICK);
        assertEquals(all, again);
        Suggestions other = Suggestions.modelled(plan, shot, QUICK.listing(1500, 2));
        assertNotEquals(all, other);
    }

    @Test
    void fNumberAndTimeStayAndIsoRisesByTwoStopsAtMost() {
        for (Suggestion s : every(all)) {
            assertEquals(8, s.look().camera().fNumber());
            assertEquals(0.01, s.look().camera().seconds());
            double iso = s.look().camera().iso();
            assertTrue(iso >= 6400 && iso <= 25600, "ISO " + iso);
        }
    }

    @Test
    void everyLightCanDoWhatIsAskedOfIt() {
        for (Suggestion s : every(all)) {
            LookLevels worked = LookLevels.of(plan, s.look());
            for (String note : worked.notes()) {
                assertFalse(note.contains("at most"), s.look().name() + ": " + note);
            }
            for (int l = 0; l < 4; l++) {
                double[] levels = worked.levels().of(l);
                for (int e = 0; e < levels.length; e++) {
                    assertEquals(levels[e], s.lights().get(l).emitters().get(e), 0);
                }
            }
        }
    }

    @Test
    void theCountsAddUp() {
        Suggestions.Counts c = all.counts();
        int refused = c.refused().values().stream().mapToInt(Integer::intValue).sum();
        assertEquals(c.looked(), refused + c.passed());
        assertTrue(refused > 0, "nothing was left out");
        assertTrue(c.listed() <= 1500 && c.listed() > 1000, "listed " + c.listed());
        assertTrue(c.possible() > 100_000, "possible " + c.possible());
        String text = SuggestText.of(all);
        assertTrue(text.contains(refused + " of " + c.looked() + " were left out: "), text);
    }

    @Test
    void oneLightIsMovedAndNoneIntoThePictureOrAPerson() {
        Set<String> lights = new HashSet<>();
        for (Suggestion s : all.moved()) {
            assertEquals(1, s.look().moved().size());
            String light = s.look().moved().keySet().iterator().next();
            assertTrue(lights.add(light), "moved twice: " + light);
            Placing placing = s.look().moved().get(light);
            assertTrue(s.look().lights().containsKey(light), "is off: " + light);
            Sight.At at =
                    new Sight(Staging.camera(plan, shot), 36, 24).at(placing.position());
            boolean ahead = placing.position().y() > -shot.distanceMetres();
            boolean seen = at.x() > 0 && at.x() < 1 && at.y() > 0 && at.y() < 1;
            assertFalse(ahead && seen, placing.toString());
            assertEquals(60, s.moved().get().seconds());
            assertTrue(s.moved().get().words().startsWith("move ‘" + light + "’ "));
            assertTrue(s.moved().get().words().endsWith("(about 1 min)"));
            if (placing.position().y() > 1.2 || placing.position().z() > 2.6) {
                assertTrue(s.moved().get().caution().contains("local rules"));
            }
        }
    }

    @Test
    void withThePlansOwnAmongThemTheyAreKnown() {
        Suggestions free =
                Suggestions.modelled(plan, shot, Options.usual(6).freely().inPlace().listing(300, 1));
        assertEquals(6, free.inPlace().size());
        for (Suggestion s : free.inPlace()) {
            boolean own = plan.looks().contains(s.look());
            assertEquals(own ? s.look().name() : "", s.inPlan());
        }
        assertTrue(free.quality().least() >= all.quality().least() * 0.8);
    }

    @Test
    void silhouettesComeOnlyWhenAskedFor() {
        Options with = Options.usual(6).freely().inPlace().listing(2000, 1).allowing(true, false);
        Suggestions dark = Suggestions.modelled(plan, shot, with);
        assertTrue(
                dark.inPlace().stream().anyMatch(s -> s.look().name().contains("faces dark")),
                SuggestText.of(dark));
        assertTrue(all.inPlace().stream().noneMatch(s -> s.look().name().contains("faces dark")));
    }

    @Test
    void aRigOfTwoIsListedWhole() {
        ShootPlan two = Rigs.two();
        Suggestions s = Suggestions.modelled(two, Rigs.first(two), Options.usual(3).inPlace());
        assertEquals(2, s.counts().wholeUpTo());
        assertTrue(s.quality().proven());
        assertEquals(3, s.inPlace().size());
    }

    @Test
    void everySuggestionGoesIntoThePlanWithoutAFault() throws Exception {
        PlanDocument file = PlanDocument.of(DemoShoot.text());
        Shot solo = plan.shot("solo-ines").orElseThrow();
        for (Suggestion s : every(all)) {
            for (Shot base : List.of(shot, plan.shot("tight-five").orElseThrow(), solo)) {
                PlanDocument edited = file;
                for (Edit edit : NewShot.edits(plan, base, s.look(), file.toJson())) {
                    edited = edited.apply(edit);
                }
                ShootPlan read = Rigs.read(edited.text());
                assertEquals(plan.looks().size() + 1, read.looks().size());
                assertEquals(plan.shots().size() + 1, read.shots().size());
                Look look = read.look(s.look().name());
                assertEquals(s.look().camera(), look.camera());
                assertEquals(s.look().lights(), look.lights());
                assertEquals(s.look().moved().keySet(), look.moved().keySet());
                Shot added =
                        read.shots().stream()
                                .filter(n -> n.look().equals(s.look().name()))
                                .findFirst()
                                .orElseThrow();
                assertEquals(base.people(), added.people());
                assertEquals(base.arrangement(), added.arrangement());
                assertEquals(base.framing(), added.framing());
                assertEquals(base.importance() - 1, added.importance());
                assertFalse(added.safe());
                assertEquals(
                        LookLevels.of(plan, s.look()).levels(), LookLevels.of(read, look).levels());
            }
        }
    }

    @Test
    void whatIsOutOfRangeIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Options.usual(0));
        assertThrows(IllegalArgumentException.class, () -> Options.usual(13));
        assertThrows(
                IllegalArgumentException.class,
                () -> Options.usual(3).weighing(-1));
    }
}
