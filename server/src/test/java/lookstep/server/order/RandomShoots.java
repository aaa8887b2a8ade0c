package lookstep.server.order;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;

/** Bands, looks and shots by chance, the same ones for the same seed. */
final class RandomShoots {
    private static final double[] LENSES = {24, 35, 50, 85};

    private final Random random;

    RandomShoots(long seed) {
        random = new Random(seed);
    }

    /**
     * A plan as a photographer may write it: a band of three to six, a look for every six shots or
     * so, a solos round, a group that comes together, few lenses, places and moved lights.
     */
    List<Item> plan(int shots) {
        int band = 3 + random.nextInt(4);
        int looks = Math.max(2, shots / 6);
        Set<String> everybody = people(band);
        List<Item> items = new ArrayList<>();
        int solosLook = random.nextInt(looks);
        for (int i = 0; i < Math.min(band, shots / 3); i++) {
            items.add(
                    item(items.size(), "look " + solosLook, Set.of("person " + i), "solo")
                            .room("hall")
                            .group("solos", true)
                            .build());
        }
        int pairs = shots >= 8 ? 2 + random.nextInt(2) : 0;
        int pairsLook = random.nextInt(looks);
        for (int i = 0; i < pairs; i++) {
            items.add(
                    item(items.size(), "look " + pairsLook, everybody, "line")
                            .room("hall")
                            .group("spread", false)
                            .build());
        }
        while (items.size() < shots) {
            Set<String> people = random.nextInt(3) > 0 ? everybody : some(band);
            String[] ways = {"line", "V", "cluster", "rows"};
            items.add(
                    item(
                                    items.size(),
                                    "look " + random.nextInt(looks),
                                    people,
                                    ways[random.nextInt(ways.length)])
                            .build());
        }
        return withSafe(items);
    }

    /** Few shots of all kinds and small groups, to try every order of them. */
    Situation small(int shots) {
        List<Item> items = new ArrayList<>();
        for (int i = 0; i < shots; i++) {
            ItemBuilder item =
                    item(
                            i,
                            "look " + random.nextInt(3),
                            some(3),
                            random.nextBoolean() ? "line" : "V");
            int kind = random.nextInt(6);
            if (kind < 2) {
                item.group("whole " + kind, false);
            } else if (kind < 4) {
                item.group("round " + kind, true);
            }
            items.add(item.build());
        }
        items = new ArrayList<>(random.nextInt(4) > 0 ? withSafe(items) : items);
        List<Item> made = new ArrayList<>();
        int inTheBag = random.nextBoolean() ? 0 : random.nextInt(4);
        for (int i = 0; i < inTheBag && items.size() > 1; i++) {
            made.add(items.remove(random.nextInt(items.size())));
        }
        Optional<Item> current =
                made.isEmpty() || random.nextInt(5) == 0
                        ? Optional.empty()
                        : Optional.of(made.get(made.size() - 1));
        return new Situation(items, made, current);
    }

    double window(double least, double most) {
        return least + random.nextDouble() * (most - least);
    }

    Random random() {
        return random;
    }

    private List<Item> withSafe(List<Item> items) {
        int safe = random.nextInt(items.size());
        List<Item> with = new ArrayList<>(items);
        with.set(safe, ItemBuilder.of(items.get(safe)).safe().build());
        return with;
    }

    private Set<String> people(int count) {
        Set<String> people = new HashSet<>();
        for (int i = 0; i < count; i++) {
            people.add("person " + i);
        }
        return people;
    }

    private Set<String> some(int band) {
        Set<String> people = people(band);
        people.removeIf(p -> random.nextInt(3) == 0);
        return people;
    }

    private ItemBuilder item(int number, String look, Set<String> people, String arrangement) {
        int farOrNear = random.nextInt(3);
        return new ItemBuilder(
                "shot-" + number,
                1 + random.nextInt(10),
                5 + random.nextInt(16),
                look,
                people,
                arrangement,
                "say " + random.nextInt(6),
                random.nextInt(3) == 0 ? "portrait" : "landscape",
                LENSES[random.nextInt(LENSES.length)],
                2.0 + farOrNear,
                random.nextInt(5) == 0 ? Map.of("back", "window") : Map.of(),
                random.nextInt(20) == 0 ? "stairs" : "hall");
    }

    /** An item being put together. */
    static final class ItemBuilder {
        private final Item item;
        private boolean safe;
        private String group = "";
        private boolean splittable;
        private String room;

        ItemBuilder(
                String id,
                int importance,
                double shootSeconds,
                String look,
                Set<String> people,
                String arrangement,
                String direction,
                String framing,
                double lens,
                double distance,
                Map<String, String> lights,
                String room) {
            item =
                    new Item(
                            id,
                            false,
                            importance,
                            shootSeconds,
                            look,
                            people,
                            arrangement,
                            direction,
                            framing,
                            lens,
                            distance,
                            1.6,
                            lights,
                            room,
                            "",
                            false,
                            "band");
            this.room = room;
        }

        private ItemBuilder(Item item) {
            this.item = item;
            safe = item.safe();
            room = item.room();
            group = item.group();
            splittable = item.splittable();
        }

        static ItemBuilder of(Item item) {
            return new ItemBuilder(item);
        }

        /** A shot like any other. */
        static ItemBuilder plain(String id, int importance, double shootSeconds) {
            return new ItemBuilder(
                    id,
                    importance,
                    shootSeconds,
                    "warm",
                    Set.of("Ada"),
                    "line",
                    "",
                    "landscape",
                    50,
                    3,
                    Map.of(),
                    "hall");
        }

        ItemBuilder safe() {
            safe = true;
            return this;
        }

        ItemBuilder group(String name, boolean mayBeCut) {
            group = name;
            splittable = mayBeCut;
            return this;
        }

        ItemBuilder room(String name) {
            room = name;
            return this;
        }

        Item build() {
            return new Item(
                    item.id(),
                    safe,
                    item.importance(),
                    item.shootSeconds(),
                    item.look(),
                    item.people(),
                    item.arrangement(),
                    item.direction(),
                    item.framing(),
                    item.lensMillimetres(),
                    item.distanceMetres(),
                    item.cameraHeightMetres(),
                    item.movedLights(),
                    room,
                    group,
                    splittable,
                    item.job());
        }
    }
}
