package lookstep.server.plates;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;

/** The demo with something of its rig edited in its file. */
final class EditedRig {
    private EditedRig() {}

    /** With one light stood elsewhere. */
    static ShootPlan moved(String light) {
        String text = DemoShoot.text();
        int at = text.indexOf("- name: " + light);
        int position = text.indexOf("position: [", at) + "position: [".length();
        int end = text.indexOf(',', position);
        return read(text.substring(0, position) + "1.1" + text.substring(end));
    }

    /** With another address only. */
    static ShootPlan readdressed(String light, int slot) {
        String text = DemoShoot.text();
        int at = text.indexOf("- name: " + light);
        int where = text.indexOf("slot: ", at) + "slot: ".length();
        int end = text.indexOf('\n', where);
        return read(text.substring(0, where) + slot + text.substring(end));
    }

    /** With a light that somebody moves for one look. */
    static ShootPlan movedInALook(String look, String light) {
        String text = DemoShoot.text();
        int at = text.indexOf("- name: " + look);
        int lights = text.indexOf("lights:", at);
        return read(
                text.substring(0, lights)
                        + "moved:\n      "
                        + light
                        + ": {position: [1, 1, 2], aim: [0, 0, 1.5]}\n    "
                        + text.substring(lights));
    }

    /** With a light of which half the code gives half the light. */
    static ShootPlan curved(String light) {
        ShootPlan plan = DemoShoot.read(GenericFixtures.all());
        return read(DemoShoot.text(), other(plan.light(light).fixture()));
    }

    private static List<Fixture> other(Fixture one) {
        return GenericFixtures.all().stream()
                .map(
                        f ->
                                f.id().equals(one.id())
                                        ? new Fixture(
                                                f.id(),
                                                f.name(),
                                                f.emitters(),
                                                new DimmingCurve.Power(1.7),
                                                f.beamDegrees(),
                                                f.watts(),
                                                f.modes())
                                        : f)
                .toList();
    }

    /** With the camera farther away for one shot. */
    static ShootPlan farther(String shot) {
        String text = DemoShoot.text();
        int at = text.indexOf("- id: " + shot);
        int where = text.indexOf("distance: ", at) + "distance: ".length();
        int end = text.indexOf('\n', where);
        return read(text.substring(0, where) + "6.5" + text.substring(end));
    }

    /** With a look called otherwise, wherever it is. */
    static ShootPlan called(String look, String otherwise) {
        return read(
                DemoShoot.text()
                        .replace("- name: " + look + "\n", "- name: " + otherwise + "\n")
                        .replace("look: " + look + "\n", "look: " + otherwise + "\n"));
    }

    private static ShootPlan read(String text) {
        return read(text, GenericFixtures.all());
    }

    private static ShootPlan read(String text, List<Fixture> fixtures) {
        return ((PlanReading.Good)
                        new PlanReader(fixtures).read(text.getBytes(StandardCharsets.UTF_8)))
                .plan();
    }
}
