package lookstep.server.paper;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.look.LightReport;
import lookstep.server.look.LightWords;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.paper.Table.Column;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Placing;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.space.Vec3;

/** What each light is at in each look, down to its slots. */
final class SettingsPart {
    private SettingsPart() {}

    static void draw(Pages pages, Sheet sheet) {
        boolean first = true;
        for (Location location : sheet.plan().locations()) {
            ShootPlan plan = RigPart.at(sheet.plan(), location);
            boolean several = sheet.plan().locations().size() > 1;
            if (plan.looks().isEmpty() || plan.rig().isEmpty()) {
                continue;
            }
            pages.heading("Settings" + (several ? ": " + location.name() : ""), 120);
            if (first) {
                pages.paragraph(
                        Face.PLAIN,
                        8.5,
                        0,
                        "Slots are written as slot:value, 0 to 255, to be set by hand on any desk;"
                                + " a light of 16 bits has two, the coarse one first. Lux: this"
                                + " light alone, at face height in the middle of the nearest row,"
                                + " the meter turned to it. Computed; a meter decides.");
                pages.down(2);
                first = false;
            }
            Table table =
                    new Table(
                            pages,
                            Column.bold("light", 2.2),
                            Column.of("asked", 3.4),
                            Column.of("lux", 1.1),
                            Column.of("colour", 1.4),
                            Column.of("universe", 1.3),
                            Column.bold("slot:value", 5.6));
            plan.looks().forEach(look -> look(table, plan, look));
            table.end();
        }
    }

    private static void look(Table table, ShootPlan plan, Look look) {
        table.group(look.name() + ": " + PlanWords.camera(look.camera()));
        LookLevels worked = LookLevels.of(plan, look);
        for (int i = 0; i < plan.rig().size(); i++) {
            Light light = plan.rig().get(i);
            LightReport report = worked.lights().get(i);
            DmxPacket packet = RigPackets.packet(plan, worked.levels(), light.universe());
            table.row(
                    light.name(),
                    asked(look, light),
                    report.given().map(g -> LightWords.lux(g.amount().lux())).orElse("–"),
                    report.given().map(g -> colour(g.colour())).orElse("–"),
                    String.valueOf(light.universe()),
                    slots(light, packet));
        }
    }

    private static String asked(Look look, Light light) {
        Setting setting = look.lights().get(light.name());
        Placing to = look.moved().get(light.name());
        return (setting == null ? "off" : PlanWords.setting(setting))
                + (light.name().equals(look.key()) ? " (the key)" : "")
                + (to == null
                        ? ""
                        : "; MOVED to %s, aimed at %s"
                                .formatted(point(to.position()), point(to.aim())));
    }

    private static String colour(LightReport.Colour colour) {
        ColourTemperature t = colour.temperature();
        return t.useful() ? Math.round(t.kelvin() / 10) * 10 + " K" : colour.seen();
    }

    private static String slots(Light light, DmxPacket packet) {
        return IntStream.range(light.startSlot(), light.startSlot() + light.mode().slots())
                .mapToObj(slot -> slot + ":" + packet.slot(slot))
                .collect(Collectors.joining("  "));
    }

    private static String point(Vec3 p) {
        return "(%s, %s, %s)"
                .formatted(
                        PlanWords.number(p.x()), PlanWords.number(p.y()), PlanWords.number(p.z()));
    }
}
