package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * The state of the shoot, whole and immutable.
 *
 * @param revision how many events made it
 * @param position 0 before the first shot, otherwise the current one in the running order
 * @param shot the current shot's id, empty before the first
 * @param take 1 when a shot becomes current, one more each time it is made again
 * @param clock the window's clock
 * @param changes of the light on the set
 * @param test a light or slot that is being looked at alone
 * @param flashingAcknowledged everybody was told of the flashing that the plan allows
 * @param timeline which shot was current when
 * @param frames all, in the order they came
 * @param leftOut files of the folder that are no frames of their own
 * @param showing what the band gets to see
 * @param foundBefore files in the frames folder that are not of this shoot; absent before the
 *     folder was first seen
 * @param keys let pages in; absent before they are made
 * @param planHash the plan file as it was when the shoot was last opened, empty before
 * @param course what is made in which order
 * @param jobs whom it is for
 * @param place where the shoot is; empty for the plan's first
 * @param added shots that the plan file does not have
 * @param plates frames with known light
 */
public record LiveState(
        long revision,
        int position,
        String shot,
        int take,
        Clock clock,
        Changes changes,
        Optional<RigTest> test,
        boolean flashingAcknowledged,
        Timeline timeline,
        List<Frame> frames,
        List<Event.FileMark> leftOut,
        Showing showing,
        Optional<List<Event.FileMark>> foundBefore,
        Optional<Event.KeysMade> keys,
        String planHash,
        Course course,
        Jobs jobs,
        String place,
        List<Shot> added,
        TakenPlates plates) {
    /** Before any event. */
    public static final LiveState NEW =
            new LiveState(
                    0,
                    0,
                    "",
                    1,
                    Clock.NEW,
                    Changes.NONE,
                    Optional.empty(),
                    false,
                    Timeline.NONE,
                    List.of(),
                    List.of(),
                    Showing.ALL,
                    Optional.empty(),
                    Optional.empty(),
                    "",
                    Course.NONE,
                    Jobs.NONE,
                    "",
                    List.of(),
                    TakenPlates.NONE);

    /** The newest frame. */
    public Optional<Frame> newestFrame() {
        return frames.isEmpty() ? Optional.empty() : Optional.of(frames.get(frames.size() - 1));
    }

    /** How many frames a shot has. */
    public int framesOf(String shotId) {
        return (int) frames.stream().filter(f -> f.shot().equals(shotId)).count();
    }

    /** Whether a shot has a frame that is kept. */
    public boolean inTheBag(String shotId) {
        return frames.stream()
                .anyMatch(f -> f.shot().equals(shotId) && f.mark() == Frame.Mark.KEPT);
    }

    /**
     * Whether a shot needs not be made any more: it is in the bag, or has a frame that is not left
     * out. Where no frame comes in at all but plates, what was stepped to counts as made.
     */
    public boolean made(String shotId) {
        return frames.stream().allMatch(Frame::ofPlates)
                ? timeline.since().stream().anyMatch(s -> s.shot().equals(shotId))
                : frames.stream()
                        .anyMatch(f -> f.shot().equals(shotId) && f.mark() != Frame.Mark.OUT);
    }

    /** How long the window is, counted from its beginning, by the newest re-cut or the plan. */
    public double windowSeconds(ShootPlan plan) {
        return course.windowMillis() > 0 ? course.windowMillis() / 1000.0 : plan.windowSeconds();
    }

    /** The frame of this number. */
    public Optional<Frame> frame(int number) {
        return number < 1 || number > frames.size()
                ? Optional.empty()
                : Optional.of(frames.get(number - 1));
    }

    /** This state after one more event. */
    public LiveState after(Event event, long atEpochMillis) {
        Next next = new Next(this);
        next.take(event, atEpochMillis);
        return next.whole();
    }

    /** The state that is being made. */
    private static final class Next {
        private final long revision;
        private int position;
        private String shot;
        private int take;
        private Clock clock;
        private Changes changes;
        private Optional<RigTest> test;
        private boolean flashingAcknowledged;
        private Timeline timeline;
        private List<Frame> frames;
        private List<Event.FileMark> leftOut;
        private Showing showing;
        private Optional<List<Event.FileMark>> foundBefore;
        private Optional<Event.KeysMade> keys;
        private String planHash;
        private Course course;
        private Jobs jobs;
        private String place;
        private List<Shot> added;
        private TakenPlates plates;

        Next(LiveState before) {
            revision = before.revision + 1;
            position = before.position;
            shot = before.shot;
            take = before.take;
            clock = before.clock;
            changes = before.changes;
            test = before.test;
            flashingAcknowledged = before.flashingAcknowledged;
            timeline = before.timeline;
            frames = before.frames;
            leftOut = before.leftOut;
            showing = before.showing;
            foundBefore = before.foundBefore;
            keys = before.keys;
            planHash = before.planHash;
            course = before.course;
            jobs = before.jobs;
            place = before.place;
            added = before.added;
            plates = before.plates;
        }

        void take(Event event, long atEpochMillis) {
            if (event instanceof Event.Opened e) {
                if (!e.planHash().equals(planHash)) {
                    // What people were told of, and which slot is whose, was another plan's.
                    flashingAcknowledged = false;
                    test = Optional.empty();
                }
                planHash = e.planHash();
            } else if (event instanceof Event.WentTo e) {
                position = e.position();
                shot = e.shot();
                take = 1;
                test = Optional.empty();
                plates = plates.gaveUp("the shoot went on");
                timeline = timeline.then(atEpochMillis, shot);
            } else if (event instanceof Event.SameAgain) {
                take++;
                test = Optional.empty();
                giveUpPlates("the shot was to be made once more", atEpochMillis);
            } else if (event instanceof Event.ClockStarted) {
                clock = clock.start(atEpochMillis);
            } else if (event instanceof Event.ClockPaused) {
                clock = clock.pause(atEpochMillis);
            } else if (event instanceof Event.FoundBefore e) {
                foundBefore = Optional.of(e.files());
            } else if (event instanceof Event.KeysMade e) {
                keys = Optional.of(e);
            } else if (event instanceof Event.FileLeftOut e) {
                leftOut = with(leftOut, e.file());
            } else if (event instanceof Event.ShowingChanged e) {
                showing = e.showing();
            } else if (!frame(event)
                    && !window(event, atEpochMillis)
                    && !plates(event, atEpochMillis)) {
                light(event, atEpochMillis);
            }
        }

        /** Frames are of the shot that is current from now on. */
        private void giveUpPlates(String why, long atEpochMillis) {
            if (plates.run().isPresent()) {
                plates = plates.gaveUp(why);
                timeline = timeline.then(atEpochMillis, shot);
            }
        }

        private boolean plates(Event event, long atEpochMillis) {
            boolean known =
                    event instanceof Event.PlatesBegun
                            || event instanceof Event.PlateShown
                            || event instanceof Event.PlateTaken
                            || event instanceof Event.PlateAsked
                            || event instanceof Event.PlatesEnded
                            || event instanceof Event.PlatesStale
                            || event instanceof Event.PlatesGood
                            || event instanceof Event.PlatesForgotten;
            if (known) {
                Optional<String> before = plates.run().map(PlateRun::id);
                plates = plates.after(event, place, atEpochMillis);
                Optional<String> now = plates.run().map(PlateRun::id);
                if (!now.equals(before)) {
                    test = Optional.empty();
                    timeline =
                            now.map(id -> timeline.thenPlates(atEpochMillis, id))
                                    .orElseGet(() -> timeline.then(atEpochMillis, shot));
                }
            }
            return known;
        }

        private boolean window(Event event, long atEpochMillis) {
            if (event instanceof Event.Ordered e) {
                course = course.ordered(e.order(), e.leftOut());
                position = course.order().indexOf(shot) + 1;
            } else if (event instanceof Event.Recut e) {
                course = course.cut(e);
                position = course.order().indexOf(shot) + 1;
            } else if (event instanceof Event.CutTakenBack e) {
                course = course.back(e);
                position = course.order().indexOf(shot) + 1;
            } else if (event instanceof Event.ShotsAdded e) {
                List<Shot> more = new ArrayList<>(added);
                more.addAll(e.shots());
                added = List.copyOf(more);
            } else if (event instanceof Event.JobOpened e) {
                jobs = jobs.with(e.job());
            } else if (event instanceof Event.JobSwitched e) {
                jobs = jobs.switched(atEpochMillis, e.client());
            } else if (event instanceof Event.Renamed e) {
                added = added.stream().map(s -> renamed(s, e)).toList();
                if (e.kind().equals("look")) {
                    changes = changes.renamed(e.from(), e.to());
                    plates = plates.renamed(e.from(), e.to());
                }
            } else if (event instanceof Event.MovedTo e) {
                place = e.place();
                test = Optional.empty();
                giveUpPlates("the shoot went on at another place", atEpochMillis);
                plates = plates.movedOn();
            } else {
                return false;
            }
            return true;
        }

        private static Shot renamed(Shot shot, Event.Renamed e) {
            UnaryOperator<String> name = n -> n.equals(e.from()) ? e.to() : n;
            boolean look = e.kind().equals("look");
            return shot.of(
                    look ? name.apply(shot.look()) : shot.look(),
                    look ? shot.people() : shot.people().stream().map(name).toList());
        }

        private boolean frame(Event event) {
            if (event instanceof Event.FrameTaken e) {
                frames = with(frames, Frame.of(e));
            } else if (event instanceof Event.FrameJoined e) {
                change(e.number(), f -> f.joined(e));
            } else if (event instanceof Event.FrameBelongs e) {
                change(e.number(), f -> f.belongs(e));
            } else if (event instanceof Event.FrameMarked e) {
                change(e.number(), f -> f.marked(e.mark()));
            } else if (event instanceof Event.FrameChecked e) {
                change(e.number(), f -> f.checked(e));
            } else if (event instanceof Event.FrameCopied e) {
                change(e.number(), f -> f.copied(e));
            } else if (event instanceof Event.FrameOfPlates e) {
                change(e.number(), f -> f.ofPlates(e.id()));
            } else {
                return false;
            }
            return true;
        }

        /** A number names one frame for good, so its place is known. */
        private void change(int number, UnaryOperator<Frame> how) {
            List<Frame> changed = new ArrayList<>(frames);
            changed.set(number - 1, how.apply(changed.get(number - 1)));
            frames = List.copyOf(changed);
        }

        private static <T> List<T> with(List<T> before, T one) {
            List<T> more = new ArrayList<>(before);
            more.add(one);
            return List.copyOf(more);
        }

        private void light(Event event, long atEpochMillis) {
            if (event instanceof Event.Nudged e) {
                changes = changes.nudge(e.shot(), e.look(), e.adjustment(), e.says());
            } else if (event instanceof Event.Kept e) {
                changes = changes.keep(e.shot(), e.look(), e.says());
            } else if (event instanceof Event.Forgotten e) {
                changes = changes.forget(e.shot(), e.look(), e.says());
            } else if (event instanceof Event.Undone) {
                changes = changes.undone();
            } else if (event instanceof Event.Testing e) {
                test = Optional.of(e.test());
                giveUpPlates("a light was to be tested", atEpochMillis);
            } else if (event instanceof Event.TestEnded) {
                test = Optional.empty();
            } else if (event instanceof Event.FlashingAcknowledged e) {
                flashingAcknowledged = e.acknowledged();
            } else {
                throw new IllegalStateException("no case for " + event);
            }
        }

        LiveState whole() {
            return new LiveState(
                    revision,
                    position,
                    shot,
                    take,
                    clock,
                    changes,
                    test,
                    flashingAcknowledged,
                    timeline,
                    frames,
                    leftOut,
                    showing,
                    foundBefore,
                    keys,
                    planHash,
                    course,
                    jobs,
                    place,
                    added,
                    plates);
        }
    }
}
