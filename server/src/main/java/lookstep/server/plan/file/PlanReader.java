package lookstep.server.plan.file;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.Fixture;
import lookstep.server.plan.Circumstances;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.WorkLight;
import lookstep.server.plan.file.Node.Mapping;

/** Reads plan files. Finds everything that is wrong in one go; never throws for what a file has. */
public final class PlanReader {
    private static final List<String> KEYS =
            List.of(
                    "title",
                    "place",
                    "places",
                    "house",
                    "window",
                    "camera",
                    "people",
                    "fixtures",
                    "rig",
                    "looks",
                    "worklight",
                    "flashing",
                    "band",
                    "jobs",
                    "times",
                    "shots");

    private final List<Fixture> fixtures;
    private final FixtureSource files;

    /**
     * Reads no GDTF.
     *
     * @param fixtures what lights a plan may name without a file of their own; at least one
     */
    public PlanReader(List<Fixture> fixtures) {
        this(fixtures, FixtureFiles.NO_GDTF);
    }

    /**
     * @param fixtures what lights a plan may name without a file of their own; at least one
     * @param gdtf reads the {@code .gdtf} files that a plan lists
     */
    public PlanReader(List<Fixture> fixtures, FixtureSource gdtf) {
        if (fixtures.isEmpty()) {
            throw new IllegalArgumentException("a plan cannot be read without any known fixture");
        }
        this.fixtures = List.copyOf(fixtures);
        files = new FixtureFiles(gdtf);
    }

    /** Reads the file at {@code path}; one that is not there is an error of the reading too. */
    public PlanReading read(Path path) {
        Problems problems = new Problems(FileKind.PLAN);
        return read(PlanBytes.read(path, problems), path, problems);
    }

    /** Reads a file's bytes; files that it lists are looked for in the working directory. */
    public PlanReading read(byte[] bytes) {
        Problems problems = new Problems(FileKind.PLAN);
        return read(PlanBytes.decode(bytes, problems), Path.of(""), problems);
    }

    /** Reads a file's bytes; files that it lists are looked for beside {@code path}. */
    public PlanReading read(byte[] bytes, Path path) {
        Problems problems = new Problems(FileKind.PLAN);
        return read(PlanBytes.decode(bytes, problems), path, problems);
    }

    private PlanReading read(Optional<String> text, Path path, Problems problems) {
        Optional<ShootPlan> plan =
                text.flatMap(t -> YamlTree.read(t, problems)).flatMap(n -> plan(n, path, problems));
        if (plan.isEmpty() || problems.errorCount() > 0) {
            return new PlanReading.Bad(problems.errors());
        }
        return new PlanReading.Good(plan.get(), problems.warnings());
    }

    private Optional<ShootPlan> plan(Node root, Path path, Problems problems) {
        if (!(root instanceof Mapping m)) {
            return new Value(root, "the file", problems)
                    .wrong("begin with keys: title, place, people, rig, looks, shots");
        }
        Fields f = Fields.of(m, "", problems, KEYS);
        Names people = new Names("person");
        Names lights = new Names("light");
        Names looks = new Names("look");
        String title =
                f.need("title", "The Tin Meridians at the Brine Loft")
                        .flatMap(v -> v.text("The Tin Meridians at the Brine Loft"))
                        .orElse("");
        House house =
                f.optional(
                        "house", "{lux: 5, kelvin: 2700}", PlaceReader::house, PlaceReader.dark());
        double window = f.need("window", "8 min").flatMap(TimeWords::window).orElse(480.0);
        CameraReader.Common camera =
                f.get("camera", CameraReader.EXAMPLE)
                        .map(CameraReader::common)
                        .orElse(CameraReader.Common.NONE);
        List<Person> band =
                Sections.read(
                        f, "people", PeopleReader.EXAMPLE, people, new PeopleReader(people)::read);
        FixturesReader known = new FixturesReader(fixtures, files, path, problems);
        f.get("fixtures", "[" + FixturesReader.EXAMPLE + "]").ifPresent(known::read);
        List<Light> rig =
                Sections.read(
                        f,
                        "rig",
                        RigReader.EXAMPLE,
                        lights,
                        new RigReader(known, lights, problems)::read);
        LocationsReader locationsReader =
                new LocationsReader(house, List.copyOf(rig), lights, problems);
        List<Location> locations = locationsReader.read(f);
        List<Look> lookList =
                Sections.read(
                        f,
                        "looks",
                        LooksReader.EXAMPLE,
                        looks,
                        new LooksReader(camera.some(), List.copyOf(rig), lights, looks, problems)
                                ::read);
        WorkLight workLight =
                f.optional(
                        "worklight",
                        WorkLightReader.EXAMPLE,
                        WorkLightReader::read,
                        WorkLight.USUAL);
        boolean flashing =
                f.optional("flashing", "forbidden", WorkLightReader::flashingAllowed, false);
        Names clients = new Names("client");
        Circumstances around =
                new Circumstances(
                        locations,
                        camera.sensor(),
                        AroundReader.times(f),
                        AroundReader.jobs(f, clients),
                        AroundReader.band(f));
        ShotsReader shotsReader = new ShotsReader(people, looks, clients, problems);
        List<Shot> shots =
                Sections.read(
                        f, "shots", ShotsReader.EXAMPLE, new Names("shot"), shotsReader::read);
        if (locations.isEmpty() || problems.errorCount() > 0) {
            return Optional.empty();
        }
        ShootPlan plan =
                new ShootPlan(
                        title,
                        locations.get(0).place(),
                        locations.get(0).house(),
                        window,
                        List.copyOf(band),
                        List.copyOf(rig),
                        List.copyOf(lookList),
                        workLight,
                        flashing,
                        List.copyOf(shots),
                        around);
        new Oddities(plan, people, lights, looks, shotsReader.places(), problems).report();
        locationsReader.checkThatShotsCanBeMade(plan);
        return Optional.of(plan);
    }
}
