package lookstep.server.plan.file;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** What is likely a slip, but stops nothing. */
record Oddities(
        ShootPlan plan,
        Names people,
        Names lights,
        Names looks,
        Map<String, Mark> shots,
        Problems problems) {

    void report() {
        unused();
        outside();
        whitesOnly();
    }

    private void unused() {
        Set<String> shown = new LinkedHashSet<>();
        Set<String> looksUsed = new LinkedHashSet<>();
        for (Shot s : plan.shots()) {
            shown.addAll(s.people());
            looksUsed.add(s.look());
        }
        for (Person p : plan.people()) {
            if (!shown.contains(p.name())) {
                problems.warning(
                        people.at(p.name()),
                        "'" + p.name() + "' is in no shot",
                        "add them to a shot, or take them out");
            }
        }
        for (Look l : plan.looks()) {
            if (!looksUsed.contains(l.name())) {
                problems.warning(
                        looks.at(l.name()),
                        "the look '" + l.name() + "' is in no shot",
                        "use it in a shot, or take it out");
            }
        }
        for (Light l : plan.rig()) {
            if (plan.looks().stream().noneMatch(k -> k.lights().containsKey(l.name()))) {
                problems.warning(
                        lights.at(l.name()),
                        "the light '" + l.name() + "' is on in no look",
                        "use it in a look, or leave it in the car");
            }
        }
    }

    private void outside() {
        Place p = plan.place();
        double nearWall = p.backgroundMetres() - p.depthMetres();
        for (Light l : plan.rig()) {
            boolean in =
                    Math.abs(l.position().x()) <= p.widthMetres() / 2
                            && l.position().y() >= nearWall
                            && l.position().y() <= p.backgroundMetres()
                            && l.position().z() >= 0
                            && l.position().z() <= p.heightMetres();
            if (!in) {
                problems.warning(
                        lights.at(l.name()),
                        "the light '" + l.name() + "' stands outside the room",
                        "x goes from "
                                + Words.number(-p.widthMetres() / 2)
                                + " to "
                                + Words.number(p.widthMetres() / 2)
                                + ", y from "
                                + Words.number(nearWall)
                                + " to "
                                + Words.number(p.backgroundMetres())
                                + ", z from 0 to "
                                + Words.number(p.heightMetres()));
            }
        }
        for (Shot s : plan.shots()) {
            if (s.distanceMetres() > -nearWall) {
                problems.warning(
                        shots.get(s.id()),
                        "in shot '" + s.id() + "' the camera stands behind the wall",
                        "the room has "
                                + Words.number(-nearWall)
                                + " m in front of the people; come nearer with a shorter lens");
            }
        }
    }

    /** Two whites on a line cannot make a colour beside it. */
    private void whitesOnly() {
        for (Look look : plan.looks()) {
            List<String> wrong =
                    look.lights().entrySet().stream()
                            .filter(
                                    e ->
                                            !(e.getValue().colour()
                                                    instanceof Look.Colour.Temperature))
                            .map(Map.Entry::getKey)
                            .filter(n -> plan.light(n).fixture().emitters().size() <= 2)
                            .toList();
            for (String light : wrong) {
                problems.warning(
                        looks.at(look.name()),
                        "in the look '"
                                + look.name()
                                + "' '"
                                + light
                                + "' is to give a colour, but it only has whites",
                        "write kelvin for it, or it gives the nearest white");
            }
        }
    }
}
