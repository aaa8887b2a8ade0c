package lookstep.server.tryout;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
    private final Function<ShootPlan, Optional<MeasuredScene>> scenes;
    private final Object searching = new Object();
    private Asked answered;
    private Suggested answer;
    private int lists;
    private List<Shown> newest = List.of();
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
     * @param looks in place, in the order to step them, then those with a light moved
     */
    public record Suggested(boolean plates, Suggestions suggestions, List<Shown> looks) {}

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
                answer = suggest(plan, scene, shot, count, lookOn);
                answered = asked;
            }
            return answer;
        }
    }

    private Suggested suggest(
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
        return remembered(plan, of, found, scene.isPresent());
    }

    private synchronized Suggested remembered(
            ShootPlan plan, Shot shot, Suggestions found, boolean plates) {
        lists++;
        List<Suggestion> all = new ArrayList<>(found.inPlace());
        all.addAll(found.moved());
        List<Shown> shown = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            shown.add(new Shown(lists + "-" + (i + 1), plan, shot, all.get(i)));
        }
        newest = List.copyOf(shown);
        return new Suggested(plates, found, newest);
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

    private synchronized EmitterPlates model(ShootPlan plan, Shot shot, Look look) {
        Staged staged = new Staged(plan.place(), plan.placed(look).rig(), shot);
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

    /** A suggestion of the newest list. */
    public synchronized Optional<Shown> shown(String id) {
        return newest.stream().filter(s -> s.id().equals(id)).findFirst();
    }
}
