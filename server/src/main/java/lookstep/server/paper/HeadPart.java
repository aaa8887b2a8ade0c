package lookstep.server.paper;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.paper.Table.Column;
import lookstep.server.plan.Job;
import lookstep.server.plan.Location;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;

/** Who, where, when, for whom. */
final class HeadPart {
    private static final double HANG = 62;
    private static final double SIZE = 10;

    private HeadPart() {}

    static void draw(Pages pages, Sheet sheet) {
        ShootPlan plan = sheet.plan();
        pages.paragraph(Face.BOLD, 21, 0, plan.title());
        pages.down(2);
        pages.paragraph(
                Face.PLAIN,
                11.5,
                0,
                "Window "
                        + PlanWords.length(plan.windowSeconds())
                        + ", "
                        + counted(sheet.order().size(), "shot")
                        + ", "
                        + counted(plan.people().size(), "person", "people"));
        pages.down(6);
        pages.ink().line(pages.left(), pages.y(), pages.left() + pages.width(), pages.y(), 1.2, 0);
        pages.down(4);
        plan.locations().forEach(l -> place(pages, l));
        people(pages, plan);
        jobs(pages, plan.around().jobs());
        remarks(pages, sheet.remarks());
    }

    private static void place(Pages pages, Location l) {
        Place p = l.place();
        pages.subheading(p.name(), 40);
        time(l.from(), l.until()).ifPresent(t -> pages.entry("when", HANG, SIZE, t));
        if (!l.access().isBlank()) {
            pages.entry("access", HANG, SIZE, l.access());
        }
        if (!l.ask().isBlank()) {
            pages.entry("ask", HANG, SIZE, l.ask());
        }
        pages.entry(
                "room",
                HANG,
                SIZE,
                "%s m wide, %s m deep, %s m high; background %s m behind the nearest row"
                        .formatted(
                                n(p.widthMetres()),
                                n(p.depthMetres()),
                                n(p.heightMetres()),
                                n(p.backgroundMetres())));
        pages.entry(
                "house light",
                HANG,
                SIZE,
                l.house().lux() == 0
                        ? "dark"
                        : n(l.house().lux()) + " lx at " + n(l.house().kelvin()) + " K");
        l.notes().forEach(note -> pages.entry("note", HANG, SIZE, note));
    }

    private static Optional<String> time(Optional<LocalTime> from, Optional<LocalTime> until) {
        if (from.isPresent() && until.isPresent()) {
            return Optional.of("from " + from.get() + " until " + until.get());
        }
        return from.map(t -> "from " + t).or(() -> until.map(t -> "until " + t));
    }

    private static void people(Pages pages, ShootPlan plan) {
        pages.subheading("People", 40);
        Table table =
                new Table(
                        pages,
                        Column.bold("name", 3),
                        Column.of("part", 2.4),
                        Column.of("height", 1),
                        Column.of("to know", 6));
        for (Person p : plan.people()) {
            table.row(p.name(), p.part(), n(p.heightMetres()) + " m", p.note());
        }
        table.end();
        List<String> notes = new ArrayList<>(plan.around().band().notes());
        notes.forEach(note -> pages.entry("the band", HANG, SIZE, note));
    }

    private static void jobs(Pages pages, List<Job> jobs) {
        if (jobs.isEmpty()) {
            return;
        }
        pages.subheading("Jobs", 40);
        Table table =
                new Table(
                        pages,
                        Column.bold("client", 2.5),
                        Column.of("promised", 4),
                        Column.of("contact", 3),
                        Column.of("to know", 3));
        for (Job job : jobs) {
            table.row(job.client(), String.join("; ", job.promised()), job.contact(), job.note());
        }
        table.end();
    }

    private static void remarks(Pages pages, List<String> remarks) {
        if (remarks.isEmpty()) {
            return;
        }
        pages.subheading("What the check says", 30);
        remarks.forEach(r -> pages.entry("–", 12, SIZE - 0.5, r));
    }

    private static String counted(int many, String one) {
        return counted(many, one, one + "s");
    }

    private static String counted(int many, String one, String more) {
        return many + " " + (many == 1 ? one : more);
    }

    private static String n(double value) {
        return PlanWords.number(value);
    }
}
