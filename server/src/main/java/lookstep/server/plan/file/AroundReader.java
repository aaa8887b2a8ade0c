package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.BandNotes;
import lookstep.server.plan.Job;
import lookstep.server.plan.MoveTimes;
import lookstep.server.plan.Sensor;

/** Jobs, notes of the band, how long moves take, and the camera's sensor. */
final class AroundReader {
    static final String JOB_EXAMPLE = "{client: the Harbour Weekly, promised: [a cover]}";
    static final String TIMES_EXAMPLE = "{light: 90, words: 10}";

    private static final List<String> TIME_KEYS =
            List.of("key", "words", "people", "lens", "camera", "light", "shot", "solo");
    private static final List<String> JOB_KEYS = List.of("client", "promised", "contact", "note");
    private static final Quantity SENSOR = Quantity.millimetres(4, 60, 36);

    private AroundReader() {}

    /**
     * @param clients their names, taken in
     */
    static List<Job> jobs(Fields f, Names clients) {
        List<Job> all = new ArrayList<>();
        f.get("jobs", "[" + JOB_EXAMPLE + "]")
                .flatMap(v -> v.list(20, "- " + JOB_EXAMPLE))
                .ifPresent(
                        list ->
                                list.forEach(
                                        v ->
                                                v.fields(JOB_KEYS, JOB_EXAMPLE)
                                                        .ifPresentOrElse(
                                                                j -> all.add(job(j, clients)),
                                                                clients::incomplete)));
        return all;
    }

    private static Job job(Fields f, Names clients) {
        return new Job(
                clients.take(f, "client", "the Harbour Weekly"),
                TextLists.read(f, "promised", "a cover"),
                f.optional("contact", "the picture desk", v -> v.text("the picture desk"), ""),
                f.optional("note", "no logos", v -> v.text("no logos"), ""));
    }

    static BandNotes band(Fields f) {
        return f.get("band", "{notes: [two of them hate chairs]}")
                .flatMap(
                        v ->
                                v.fields(
                                        List.of("notes", "pictures"),
                                        "{notes: [two of them hate chairs]}"))
                .map(
                        b ->
                                new BandNotes(
                                        TextLists.read(b, "notes", "two of them hate chairs"),
                                        TextLists.read(b, "pictures", "last-tour.jpg")))
                .orElse(BandNotes.NONE);
    }

    static MoveTimes times(Fields f) {
        return f.get("times", TIMES_EXAMPLE)
                .flatMap(v -> v.fields(TIME_KEYS, TIMES_EXAMPLE))
                .map(AroundReader::read)
                .orElse(MoveTimes.USUAL);
    }

    private static MoveTimes read(Fields t) {
        MoveTimes usual = MoveTimes.USUAL;
        return new MoveTimes(
                seconds(t, "key", usual.key()),
                seconds(t, "words", usual.words()),
                seconds(t, "people", usual.people()),
                seconds(t, "lens", usual.lens()),
                seconds(t, "camera", usual.camera()),
                seconds(t, "light", usual.light()),
                seconds(t, "shot", usual.shot()),
                seconds(t, "solo", usual.solo()));
    }

    private static double seconds(Fields t, String key, double usual) {
        return t.number(key, new Quantity("seconds", " s", 0, 3600, usual), usual);
    }

    static Sensor sensor(Fields camera) {
        return camera.get("sensor", "[36, 24]")
                .flatMap(v -> v.numbers(2, SENSOR, "[36, 24]"))
                .map(mm -> new Sensor(Math.max(mm[0], mm[1]), Math.min(mm[0], mm[1])))
                .orElse(Sensor.FULL_FRAME);
    }
}
