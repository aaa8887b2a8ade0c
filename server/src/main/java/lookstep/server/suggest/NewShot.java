package lookstep.server.suggest;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Person;
import lookstep.server.plan.Placing;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.PlanPath;
import lookstep.server.plan.file.ShotEntries;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.space.Vec3;

/**
 * A suggested look as edits of the plan file: the look, and one shot with it, of the same people as
 * another shot, standing alike, and a little less important.
 */
public final class NewShot {
    private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
    private static final int LONGEST_ID = 60;

    private NewShot() {}

    /**
     * The edits, in the order to make them.
     *
     * @param plan as it was read
     * @param base whose people, arrangement and framing it has; the new one comes behind it
     * @param look with a name of its own
     * @param file the plan file, as {@link lookstep.server.plan.edit.PlanDocument#toJson} has it
     */
    public static List<Edit> edits(ShootPlan plan, Shot base, Look look, JsonNode file) {
        List<Edit> edits = new ArrayList<>();
        if (plan.looks().stream().noneMatch(l -> l.name().equals(look.name()))) {
            edits.add(new Edit.Insert(PlanPath.of("looks"), look(look)));
        }
        JsonNode shots = file.path("shots");
        List<String> everybody = plan.people().stream().map(Person::name).toList();
        OptionalInt at = ShotEntries.of(shots, everybody, base.id());
        ObjectNode shot = shot(base, look, id(plan, shots, everybody, look.name()));
        edits.add(
                at.isPresent()
                        ? new Edit.Insert(PlanPath.of("shots"), at.getAsInt() + 1, shot)
                        : new Edit.Insert(PlanPath.of("shots"), shot));
        return List.copyOf(edits);
    }

    private static String id(ShootPlan plan, JsonNode shots, List<String> everybody, String look) {
        Set<String> taken = new HashSet<>();
        plan.shots().forEach(s -> taken.add(s.id()));
        String slug = PlanWords.slug(look);
        String base =
                slug.isEmpty()
                        ? "look"
                        : slug.substring(0, Math.min(LONGEST_ID - 4, slug.length()));
        base = base.replaceAll("-+$", "");
        String id = base;
        for (int n = 2;
                taken.contains(id) || ShotEntries.of(shots, everybody, id).isPresent();
                n++) {
            id = base + "-" + n;
        }
        return id;
    }

    private static ObjectNode shot(Shot base, Look look, String id) {
        ObjectNode shot = JSON.objectNode();
        String name = look.name();
        shot.put("id", id);
        shot.put("name", name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1));
        shot.put("look", name);
        ArrayNode people = shot.putArray("people");
        base.people().forEach(people::add);
        shot.set("arrangement", arrangement(base.arrangement()));
        shot.put("lens", base.lensMillimetres());
        shot.put("distance", base.distanceMetres());
        shot.put("height", base.cameraHeightMetres());
        shot.put("framing", base.framing());
        if (!base.say().isEmpty()) {
            ArrayNode say = shot.putArray("say");
            base.say().forEach(say::add);
        }
        shot.put("importance", Math.max(1, base.importance() - 1));
        if (!base.use().job().isEmpty()) {
            shot.put("job", base.use().job());
        }
        if (base.use().seconds() > 0) {
            shot.put("seconds", base.use().seconds());
        }
        if (!base.use().text().isEmpty()) {
            shot.put("text", base.use().text());
        }
        return shot;
    }

    private static JsonNode arrangement(Arrangement a) {
        ObjectNode out = JSON.objectNode();
        out.put(
                "kind",
                switch (a.kind()) {
                    case LINE -> "line";
                    case WEDGE -> "v";
                    case ZIGZAG -> "w";
                    case ROWS -> "rows";
                    case CLUSTER -> "cluster";
                    case SOLO -> "solo";
                });
        if (a.kind() == Arrangement.Kind.WEDGE) {
            out.put("apex", a.apexNear() ? "near" : "far");
        }
        out.put("spacing", a.spacingMetres());
        if (a.rowMetres() > 0) {
            out.put("row", a.rowMetres());
        }
        if (a.kind() == Arrangement.Kind.ROWS) {
            ArrayNode rows = out.putArray("rows");
            a.rows().forEach(rows::add);
        }
        return out;
    }

    private static ObjectNode look(Look look) {
        ObjectNode out = JSON.objectNode();
        out.put("name", look.name());
        out.set("camera", camera(look.camera()));
        out.put("fade", look.fadeSeconds());
        if (look.lights().size() > 1) {
            out.put("key", look.key());
        }
        ObjectNode lights = out.putObject("lights");
        look.lights().forEach((name, setting) -> lights.set(name, setting(setting)));
        if (!look.moved().isEmpty()) {
            ObjectNode moved = out.putObject("moved");
            look.moved().forEach((name, placing) -> moved.set(name, placing(placing)));
        }
        return out;
    }

    private static ObjectNode camera(CameraSettings c) {
        ObjectNode out = JSON.objectNode();
        out.put("f", c.fNumber());
        String time = PlanWords.time(c.seconds());
        if (time.contains("/")) {
            out.put("time", time);
        } else {
            out.put("time", c.seconds());
        }
        out.put("iso", c.iso());
        out.put("kelvin", c.kelvin());
        return out;
    }

    private static ObjectNode setting(Setting s) {
        ObjectNode out = JSON.objectNode();
        if (s.level() instanceof Level.Percent p) {
            out.put("percent", p.percent());
        } else if (s.level() instanceof Level.Lux lux) {
            out.put("lux", lux.lux());
        } else {
            out.put("stops", ((Level.StopsFromKey) s.level()).stops());
        }
        if (s.colour() instanceof Colour.Temperature t) {
            out.put("kelvin", t.kelvin());
            if (t.duv() != 0) {
                out.put("duv", t.duv());
            }
        } else if (s.colour() instanceof Colour.HueSaturation hs) {
            out.put("hue", hs.hueDegrees());
            out.put("saturation", hs.saturation() * 100);
        } else {
            Colour.Xy xy = (Colour.Xy) s.colour();
            out.putArray("xy").add(xy.x()).add(xy.y());
        }
        if (s.blend() == Look.Blend.MOST) {
            out.put("blend", "most");
        }
        return out;
    }

    private static ObjectNode placing(Placing p) {
        ObjectNode out = JSON.objectNode();
        point(out.putArray("position"), p.position());
        point(out.putArray("aim"), p.aim());
        return out;
    }

    private static void point(ArrayNode into, Vec3 p) {
        for (double metres : new double[] {p.x(), p.y(), p.z()}) {
            into.add(Math.round(metres * 100) / 100.0);
        }
    }
}
