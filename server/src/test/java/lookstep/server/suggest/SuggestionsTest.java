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

    private static final ShootPlan PLAN = Rigs.four();
    private static final Shot SHOT = Rigs.first(PLAN);
    private static final Suggestions ALL = Suggestions.modelled(PLAN, SHOT, QUICK);

    private static List<Suggestion> every(Suggestions s) {
        List<Suggestion> every = new ArrayList<>(s.inPlace());
        every.addAll(s.moved());
        return every;
    }

    @Test
    void asManyAsAskedForInTheirOrderAndAllPass() {
        assertEquals(4, ALL.inPlace().size());
        assertEquals(2, ALL.moved().size());
        for (Suggestion s : every(ALL)) {
            assertTrue(
                    s.passes().refusal(new Passes.Allowed(false, false)).isEmpty(), s.toString());
            assertFalse(s.why().isBlank());
            assertEquals(4, s.lights().size());
            assertEquals("", s.inPlan());
        }
        List<Look> looks = ALL.inPlace().stream().map(Suggestion::look).toList();
        StepOrder order = StepOrder.of(PLAN.look("safe"), looks, PLAN.around().times());
        assertEquals(
                order.totalSeconds(),
                ALL.inPlace().stream().mapToDouble(Suggestion::seconds).sum(),
                1e-9);
    }

    @Test
    void theLeastDifferenceIsThatOfTheNearestAndTheBoundHolds() {
        double least =
                ALL.inPlace().stream()
                        .mapToDouble(s -> s.nearest().difference())
                        .min()
                        .getAsDouble();
        assertEquals(ALL.quality().least(), least, 1e-5);
        assertTrue(ALL.quality().bestPossible() >= ALL.quality().least());
        assertTrue(ALL.quality().gap() >= 0 && ALL.quality().gap() < 1);
    }

    @Test
    void namesAreShortAndNobodyElses() {
        Set<String> names = new HashSet<>();
        PLAN.looks().forEach(l -> names.add(l.name().toLowerCase(Locale.ROOT)));
        for (Suggestion s : every(ALL)) {
            assertTrue(names.add(s.look().name().toLowerCase(Locale.ROOT)), s.look().name());
            assertTrue(s.look().name().length() <= 60, s.look().name());
        }
    }

    @Test
    void theSameRigHasTheSameSuggestions() {
        Suggestions again = Suggestions.modelled(PLAN, SHOT, QUICK);
        assertEquals(ALL, again);
        Suggestions other = Suggestions.modelled(PLAN, SHOT, QUICK.listing(1500, 2));
        assertNotEquals(ALL, other);
    }

    @Test
    void fNumberAndTimeStayAndIsoRisesByTwoStopsAtMost() {
        for (Suggestion s : every(ALL)) {
            assertEquals(8, s.look().camera().fNumber());
            assertEquals(0.01, s.look().camera().seconds());
            double iso = s.look().camera().iso();
            assertTrue(iso >= 6400 && iso <= 25600, "ISO " + iso);
        }
    }

    @Test
    void everyLightCanDoWhatIsAskedOfIt() {
        for (Suggestion s : every(ALL)) {
            LookLevels worked = LookLevels.of(PLAN, s.look());
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
        Suggestions.Counts c = ALL.counts();
        int refused = c.refused().values().stream().mapToInt(Integer::intValue).sum();
        assertEquals(c.looked(), refused + c.passed());
        assertTrue(refused > 0, "nothing was left out");
        assertTrue(c.listed() <= 1500 && c.listed() > 1000, "listed " + c.listed());
        assertTrue(c.possible() > 100_000, "possible " + c.possible());
        String text = SuggestText.of(ALL);
        assertTrue(text.contains(refused + " of " + c.looked() + " were left out: "), text);
    }

    @Test
    void oneLightIsMovedAndNoneIntoThePictureOrAPerson() {
        Set<String> lights = new HashSet<>();
        for (Suggestion s : ALL.moved()) {
            assertEquals(1, s.look().moved().size());
            String light = s.look().moved().keySet().iterator().next();
            assertTrue(lights.add(light), "moved twice: " + light);
            Placing placing = s.look().moved().get(light);
            assertTrue(s.look().lights().containsKey(light), "is off: " + light);
            Sight.At at = new Sight(Staging.camera(PLAN, SHOT), 36, 24).at(placing.position());
            boolean ahead = placing.position().y() > -SHOT.distanceMetres();
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
                Suggestions.modelled(
                        PLAN, SHOT, Options.usual(6).freely().inPlace().listing(300, 1));
        assertEquals(6, free.inPlace().size());
        for (Suggestion s : free.inPlace()) {
            boolean own = PLAN.looks().contains(s.look());
            assertEquals(own ? s.look().name() : "", s.inPlan());
        }
        assertTrue(free.quality().least() >= ALL.quality().least() * 0.8);
    }

    @Test
    void silhouettesComeOnlyWhenAskedFor() {
        Options with = Options.usual(6).freely().inPlace().listing(1200, 1).allowing(true, false);
        Suggestions dark = Suggestions.modelled(PLAN, SHOT, with);
        assertTrue(
                dark.inPlace().stream().anyMatch(s -> s.look().name().contains("faces dark")),
                SuggestText.of(dark));
        assertTrue(ALL.inPlace().stream().noneMatch(s -> s.look().name().contains("faces dark")));
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
        Shot solo = PLAN.shot("solo-ines").orElseThrow();
        for (Suggestion s : every(ALL)) {
            for (Shot base : List.of(SHOT, PLAN.shot("tight-five").orElseThrow(), solo)) {
                PlanDocument edited = file;
                for (Edit edit : NewShot.edits(PLAN, base, s.look(), file.toJson())) {
                    edited = edited.apply(edit);
                }
                ShootPlan read = Rigs.read(edited.text());
                assertEquals(PLAN.looks().size() + 1, read.looks().size());
                assertEquals(PLAN.shots().size() + 1, read.shots().size());
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
                        LookLevels.of(PLAN, s.look()).levels(), LookLevels.of(read, look).levels());
            }
        }
    }

    @Test
    void whatIsOutOfRangeIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Options.usual(0));
        assertThrows(IllegalArgumentException.class, () -> Options.usual(13));
        assertThrows(IllegalArgumentException.class, () -> Options.usual(3).weighing(-1));
    }
}
