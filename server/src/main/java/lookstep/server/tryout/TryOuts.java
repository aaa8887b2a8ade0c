package lookstep.server.tryout;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import lookstep.server.measuring.Counted;
import lookstep.server.measuring.MeasuredScene;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.EmitterPlates;
import lookstep.server.prediction.Staging;
import lookstep.server.suggest.Options;
import lookstep.server.suggest.Suggestion;
import lookstep.server.suggest.Suggestions;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;

/** Suggestions, and the newest list of them. Any thread. */
public final class TryOuts {
    /** Of some lists. */
    private static final int MOST_KEPT = 60;

    private final Function<ShootPlan, Optional<MeasuredScene>> scenes;

    /** An id of another start of the program is none of ours. */
    private final String run = UUID.randomUUID().toString().substring(0, 8);

    private final Object searching = new Object();
    private Asked answered;
    private Found answer;
    private int lists;
    private final List<Shown> newest = new ArrayList<>();
    private final Object modelling = new Object();
    private Staged modelled;
    private EmitterPlates model;

    /** What the newest list was asked with. */
    private record Asked(
            ShootPlan plan, Optional<MeasuredScene> scene, String shot, int count, String lookOn) {}

    /** What the model's plates hang on. */
    private record Staged(Place place, List<Light> rig, Shot shot) {}

    /**
     * One suggestion.
     *
     * @param id of the list and its place there
     */
    public record Shown(String id, ShootPlan plan, Shot shot, Suggestion suggestion) {
        /** The look that it is. */
        public Look look() {
            return suggestion.look();
        }
    }

    /**
     * A list of suggestions.
     *
     * @param plates whether plates were looked at, and not the model
     * @param shot whose people and camera they are for
     * @param looks in place, in the order to step them, then those with a light moved
     */
    public record Suggested(
            boolean plates, Shot shot, Suggestions suggestions, List<Shown> looks) {}

    private record Found(ShootPlan plan, Shot shot, Suggestions suggestions, boolean plates) {}

    /**
     * @param scenes plates of a plan as they hold now; empty if there are none
     */
    public TryOuts(Function<ShootPlan, Optional<MeasuredScene>> scenes) {
        this.scenes = scenes;
    }

    /**
     * The looks that differ most; takes seconds. From plates they are of the shot that the plates
     * are of.
     *
     * @param shot whose people and camera they are for, from the model
     * @param count how many, 1..12
     * @param lookOn the look that is on, to step from
     * @throws IllegalArgumentException if there can be none; the message says why
     */
    public Suggested suggest(ShootPlan plan, Shot shot, int count, String lookOn) {
        Optional<MeasuredScene> scene = scenes.apply(plan);
        Asked asked = new Asked(plan, scene, scene.isPresent() ? "" : shot.id(), count, lookOn);
        synchronized (searching) {
            // What was found while the page was opened is there at once.
            if (!asked.equals(answered)) {
                answer = search(plan, scene, shot, count, lookOn);
                answered = asked;
            }
            return listed(answer);
        }
    }

    /** Looks for them, so that they are there when somebody asks. */
    public void lookAhead(ShootPlan plan, Shot shot, int count, String lookOn) {
        Optional<MeasuredScene> scene = scenes.apply(plan);
        Asked asked = new Asked(plan, scene, scene.isPresent() ? "" : shot.id(), count, lookOn);
        synchronized (searching) {
            if (!asked.equals(answered)) {
                answer = search(plan, scene, shot, count, lookOn);
                answered = asked;
            }
        }
    }

    private Found search(
            ShootPlan plan, Optional<MeasuredScene> scene, Shot shot, int count, String lookOn) {
        Options usual = Options.usual(count);
        Options options =
                new Options(
                        usual.count(),
                        usual.apartFromPlan(),
                        usual.silhouettes(),
                        usual.colouredFaces(),
                        usual.directionWeight(),
                        usual.moves(),
                        lookOn,
                        usual.listed(),
                        usual.seed());
        Shot of = scene.map(MeasuredScene::shot).orElse(shot);
        Suggestions found =
                scene.map(s -> Suggestions.of(s.plates(), s.cast(), s.plan(), of, options))
                        .orElseGet(() -> Suggestions.modelled(plan, of, options));
        return new Found(plan, of, found, scene.isPresent());
    }

    /** What was asked for gets its ids; lists that a page may still show are kept. */
    private Suggested listed(Found found) {
        List<Suggestion> all = new ArrayList<>(found.suggestions().inPlace());
        all.addAll(found.suggestions().moved());
        List<Shown> shown = new ArrayList<>();
        synchronized (newest) {
            lists++;
            for (int i = 0; i < all.size(); i++) {
                shown.add(
                        new Shown(
                                "%s-%d-%d".formatted(run, lists, i + 1),
                                found.plan(),
                                found.shot(),
                                all.get(i)));
            }
            newest.addAll(0, shown);
            while (newest.size() > MOST_KEPT) {
                newest.remove(newest.size() - 1);
            }
        }
        return new Suggested(found.plates(), found.shot(), found.suggestions(), List.copyOf(shown));
    }

    /**
     * What is counted in a look: from plates of the shot that they are of, from the model
     * otherwise.
     */
    public List<String> counted(ShootPlan plan, Shot shot, Look look) {
        if (look.moved().isEmpty()) {
            Optional<MeasuredScene> scene = scenes.apply(plan);
            if (scene.isPresent()) {
                MeasuredScene s = scene.get();
                return Counted.words(s.plan(), look, s.plates(), s.cast());
            }
        }
        EmitterPlates model = model(plan, shot, look);
        LinearPlates linear = model.linear();
        return Counted.words(
                plan, look, linear, Cast.of(model.rendered(), linear.width(), linear.height()));
    }

    private EmitterPlates model(ShootPlan plan, Shot shot, Look look) {
        Staged staged = new Staged(plan.place(), plan.placed(look).rig(), shot);
        synchronized (modelling) {
            return model(staged, plan, shot, look);
        }
    }

    private EmitterPlates model(Staged staged, ShootPlan plan, Shot shot, Look look) {
        if (!staged.equals(modelled)) {
            Camera camera = Staging.camera(plan, shot, look).exact().focused(Camera.ALL_SHARP);
            model =
                    EmitterPlates.of(
                            plan,
                            Staging.scene(plan, shot, look),
                            plan.placed(look).rig(),
                            camera,
                            MeasuredScene.WIDTH);
            modelled = staged;
        }
        return model;
    }

    /** A suggestion of the newest lists. */
    public Optional<Shown> shown(String id) {
        synchronized (newest) {
            return newest.stream().filter(s -> s.id().equals(id)).findFirst();
        }
    }
}
