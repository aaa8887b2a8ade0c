package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.IntStream;
import lookstep.protocols.fixture.Mode.Channel;

/**
 * What slots of one mode make sense together, told by place; the same that {@link
 * lookstep.protocols.fixture.Mode} refuses without one.
 *
 * @param whole the list of slots
 * @param emitters their names, in the fixture's order
 */
record SlotRules(Value whole, List<Placed> slots, List<String> emitters, List<String> notes) {

    /** A channel and where the file says so. */
    record Placed(Channel channel, Value at) {}

    void check() {
        int count = slots.stream().mapToInt(s -> s.channel().bytes()).sum();
        if (count > 512) {
            error(
                    whole,
                    " takes " + count + " slots, and a universe has 512",
                    "keep it to 512, with 8 bits where 16 are not needed");
        }
        once(Channel.Dimmer.class, "dimmer");
        once(Channel.Whites.class, "slot that blends whites");
        once(Channel.Tint.class, "tint");
        Optional<Placed> dimmer = first(Channel.Dimmer.class);
        Optional<Placed> whites = first(Channel.Whites.class);
        Optional<Placed> tint = first(Channel.Tint.class);
        if (whites.isPresent() || tint.isPresent()) {
            relative(dimmer, whites, tint);
        } else {
            each(dimmer.isPresent());
        }
    }

    private void once(Class<? extends Channel> kind, String what) {
        List<Placed> all = slots.stream().filter(s -> kind.isInstance(s.channel())).toList();
        if (all.size() > 1) {
            error(
                    all.get(1).at(),
                    " is a second " + what,
                    "keep one of the two, and hold the other: {fixed: 255, is: not used}");
        }
    }

    /** Whites and tint go by the dimmer, and with no emitter by itself. */
    private void relative(Optional<Placed> dimmer, Optional<Placed> whites, Optional<Placed> tint) {
        Placed one = whites.or(() -> tint).orElseThrow();
        String what = whites.isPresent() ? "whites" : "a tint";
        String need = whites.isPresent() ? "whites need" : "a tint needs";
        if (dimmer.isEmpty()) {
            error(one.at(), ": " + need + " a dimmer in the same mode", "add a slot: dimmer");
        }
        first(Channel.Emitter.class)
                .ifPresent(
                        own ->
                                error(
                                        own.at(),
                                        ": an emitter by itself does not go with " + what,
                                        "hold the slot, for example {fixed: 0, is: red off}"));
        tint.ifPresent(t -> tint(t, whites.map(w -> (Channel.Whites) w.channel())));
    }

    private void tint(Placed placed, Optional<Channel.Whites> whites) {
        Channel.Tint tint = (Channel.Tint) placed.channel();
        List<Integer> used =
                IntStream.range(0, emitters.size())
                        .filter(i -> tint.greener().get(i) > 0 || tint.pinker().get(i) > 0)
                        .boxed()
                        .toList();
        for (int i : used) {
            if (whites.isPresent() && (i == whites.get().warm() || i == whites.get().cool())) {
                error(
                        placed.at(),
                        " adds '" + emitters.get(i) + "', which the whites blend already",
                        "take it out of greener and pinker");
            }
        }
        if (whites.isEmpty() && used.size() == emitters.size()) {
            error(
                    placed.at(),
                    " uses every emitter, so there is none to tint",
                    "name only what is added to the light");
        }
    }

    /** Emitters by themselves: all of them, or none and a dimmer. */
    private void each(boolean dimmed) {
        Map<Integer, Integer> cells = new HashMap<>();
        for (Placed slot : slots) {
            if (slot.channel() instanceof Channel.Emitter emitter) {
                cells.merge(emitter.emitter(), 1, Integer::sum);
            }
        }
        List<String> missing = new ArrayList<>();
        for (int i = 0; i < emitters.size(); i++) {
            if (!cells.containsKey(i)) {
                missing.add(emitters.get(i));
            }
        }
        if (!missing.isEmpty() && !(dimmed && cells.isEmpty())) {
            error(
                    whole,
                    " has no slot for " + Words.list(missing),
                    dimmed
                            ? "add one for each, or leave the dimmer alone to dim them all"
                            : "add one for each, or a slot: dimmer");
        } else if (new TreeSet<>(cells.values()).size() > 1) {
            notes.add(
                    "line "
                            + whole.at().line()
                            + ": "
                            + whole.path()
                            + " has more slots for one emitter than for another");
        }
    }

    private Optional<Placed> first(Class<? extends Channel> kind) {
        return slots.stream().filter(s -> kind.isInstance(s.channel())).findFirst();
    }

    private void error(Value value, String what, String mend) {
        value.problems().error(value.at(), value.path() + what, mend);
    }
}
