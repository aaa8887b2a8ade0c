package lookstep.server.plates;

import java.nio.charset.StandardCharsets;
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

    private static ShootPlan read(String text) {
        return ((PlanReading.Good)
                        new PlanReader(GenericFixtures.all())
                                .read(text.getBytes(StandardCharsets.UTF_8)))
                .plan();
    }
}
