package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.live.PlanInState;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateSet;
import lookstep.server.plates.PlateBeginning;
import lookstep.server.plates.PlateTaker.Taking;
import lookstep.server.plates.PlatesNow;

/** What presses about plates mean. */
final class PlatePresses {
    private final Live live;
    private final Lightings lightings;
    private final Supplier<PlatesNow> now;
    private final LongSupplier epochMillis;

    PlatePresses(
            Live live, Lightings lightings, Supplier<PlatesNow> now, LongSupplier epochMillis) {
        this.live = live;
        this.lightings = lightings;
        this.now = now;
        this.epochMillis = epochMillis;
    }

    /** Carries a press out. */
    interface Press {
        void make() throws IOException, NotPossible;
    }

    /**
     * {@code {"do": "begin", "standIn": true}}; of the plates that the page shows, by their id:
     * {@code {"do": "again", "id": "plates-1", "step": 3}} with the first step 1, {@code use} for
     * the frame that was found wrong, {@code give up}, {@code nothing moved}, {@code forget}.
     *
     * @return empty if it is none of these
     */
    Optional<Press> plates(JsonNode body) {
        String id = body.path("id").asText();
        return switch (body.path("do").asText()) {
            case "begin" -> Optional.of(() -> begin(body.path("standIn").asBoolean()));
            case "again" ->
                    body.path("step").isInt()
                            ? Optional.of(() -> again(id, body.path("step").intValue() - 1))
                            : Optional.empty();
            case "use" -> Optional.of(() -> use(id));
            case "give up" -> Optional.of(() -> live.giveUpPlates(id, "by hand"));
            case "nothing moved" -> Optional.of(() -> nothingMoved(id));
            case "forget" -> Optional.of(() -> live.forgetPlates(id));
            default -> Optional.empty();
        };
    }

    private void begin(boolean standIn) throws IOException, NotPossible {
        LiveState state = live.state();
        live.beginPlates(
                PlateBeginning.of(lightings.of(state), state, standIn, epochMillis.getAsLong()));
    }

    private void again(String id, int step) throws IOException, NotPossible {
        Optional<PlateRun> run =
                live.state()
                        .plates()
                        .run()
                        .or(() -> live.state().plates().set().map(PlateSet::run))
                        .filter(r -> r.id().equals(id));
        if (run.isEmpty() || step < 0 || step >= run.get().steps().size()) {
            throw new NotPossible("these plates are gone; take new ones");
        }
        live.askPlate(new PlateAsked(id, step, "", true, List.of()));
    }

    private void use(String id) throws IOException, NotPossible {
        Taking taking = now.get().taking();
        Optional<PlateRun> run = live.state().plates().run().filter(r -> r.id().equals(id));
        if (run.isEmpty() || taking.rejected() == 0 || !taking.canBeUsed()) {
            throw new NotPossible("there is no frame that could be used; take it again");
        }
        live.plateTaken(
                new PlateTaken(
                        id,
                        run.get().at(),
                        taking.rejected(),
                        "used all the same: " + taking.says()));
    }

    private void nothingMoved(String id) throws IOException, NotPossible {
        LiveState state = live.state();
        Optional<PlateSet> set = state.plates().set().filter(s -> s.id().equals(id));
        if (set.isEmpty()) {
            throw new NotPossible("these plates are gone; take new ones");
        }
        String taken = set.get().run().place();
        String there = taken.isEmpty() ? lightings.read().locations().get(0).name() : taken;
        String here = PlanInState.place(lightings.read(), state);
        if (!there.equals(here)) {
            throw new NotPossible(
                    "they were taken at ‘%s’, and the shoot is at ‘%s’: take new ones here"
                            .formatted(there, here));
        }
        Optional<String> edited = lightings.of(state).edited(set.get().run().begun());
        if (edited.isPresent()) {
            throw new NotPossible(edited.get() + " since they were taken: take them again");
        }
        live.platesGood(id);
    }
}
