package lookstep.server.ptpip;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.DevicePropDesc;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.EventPacket;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.PropertyValue;
import lookstep.protocols.ptpip.ResponseCode;
import lookstep.server.gear.CameraControl;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.PlanWords;

/**
 * Sets one camera and releases it. What is wanted may be said on any thread; everything else is the
 * link's thread.
 */
final class Dials implements CameraControl {
    /** A release that comes later than this is a surprise: it is not done any more. */
    private static final long LATE_NANOS = 1_000_000_000L;

    private static final long BUSY_NANOS = 200_000_000L;

    /** Some cameras take a setting at once and show it a little later. */
    private static final long SHOWN_LATER_NANOS = 500_000_000L;

    private static final int MOST_BUSY = 10;

    private final Runnable wake;
    private final Object lock = new Object();
    private Consumer<Standing> watcher = standing -> {};
    private Optional<CameraSettings> newlyWanted = Optional.empty();
    private boolean connected;
    private boolean releaseAsked;
    private long askedNanos;

    private Optional<CameraSettings> wanted = Optional.empty();
    private final Map<Dial, String> byHand = new EnumMap<>(Dial.class);
    private Session session;
    private DeviceInfo camera;
    private boolean toSet;
    private boolean toCheck;
    private long retryNanos;
    private int busy;
    private Optional<Standing> told = Optional.empty();

    /**
     * Nothing is wanted yet.
     *
     * @param wake called after something was asked for
     */
    Dials(Runnable wake) {
        this.wake = wake;
    }

    @Override
    public void want(CameraSettings settings) {
        synchronized (lock) {
            newlyWanted = Optional.of(settings);
        }
        wake.run();
    }

    @Override
    public void release() {
        synchronized (lock) {
            // a press that finds no camera is not kept for when it comes back
            releaseAsked = connected;
            askedNanos = System.nanoTime();
        }
        wake.run();
    }

    @Override
    public void watch(Consumer<Standing> with) {
        synchronized (lock) {
            watcher = with;
        }
    }

    /** A session is open. */
    void up(Session opened, DeviceInfo info, long nowNanos) {
        session = opened;
        camera = info;
        toSet = wanted.isPresent();
        toCheck = false;
        retryNanos = nowNanos;
        busy = 0;
        synchronized (lock) {
            connected = true;
            releaseAsked = false;
        }
        if (!toSet) {
            tell();
        }
    }

    /** The camera is gone. */
    void down() {
        synchronized (lock) {
            connected = false;
            releaseAsked = false;
        }
        takeWanted();
        session = null;
        camera = null;
        for (Dial dial : Dial.values()) {
            byHand.put(dial, "it is not reached now");
        }
        tell();
    }

    /** Looks again when a dial was turned on the camera. */
    void told(EventPacket event, long nowNanos) {
        if (event.event() == EventCode.DEVICE_PROP_CHANGED.code() && wanted.isPresent()) {
            toCheck = true;
            retryNanos = nowNanos;
        }
    }

    /** When there is something to do again if nothing is asked for. */
    long nextNanos(long latestNanos) {
        return (toSet || toCheck) && retryNanos - latestNanos < 0 ? retryNanos : latestNanos;
    }

    /**
     * Does one thing.
     *
     * @return false if there is nothing to do now
     */
    boolean step(long nowNanos, Telling telling) throws LinkDownException {
        Optional<Long> asked = takeRelease();
        if (asked.isPresent()) {
            release(asked.get(), nowNanos, telling);
            return true;
        }
        if (takeWanted()) {
            toSet = true;
            toCheck = false;
            busy = 0;
            retryNanos = nowNanos;
        }
        if (!(toSet || toCheck) || nowNanos - retryNanos < 0) {
            return false;
        }
        boolean setting = toSet;
        toSet = false;
        toCheck = false;
        try {
            for (Dial dial : Dial.values()) {
                turn(dial, wanted.orElseThrow(), setting, nowNanos);
            }
            busy = 0;
        } catch (RefusedException hands) {
            // its hands are full: a little later
            busy++;
            toSet = setting;
            toCheck = !setting;
            retryNanos = nowNanos + BUSY_NANOS;
            return true;
        }
        tell();
        return true;
    }

    private Optional<Long> takeRelease() {
        synchronized (lock) {
            if (!releaseAsked) {
                return Optional.empty();
            }
            releaseAsked = false;
            return Optional.of(askedNanos);
        }
    }

    private boolean takeWanted() {
        synchronized (lock) {
            if (newlyWanted.isEmpty()) {
                return false;
            }
            wanted = newlyWanted;
            newlyWanted = Optional.empty();
            return true;
        }
    }

    private void release(long asked, long nowNanos, Telling telling) throws LinkDownException {
        if (!canRelease()) {
            telling.release(
                    Optional.of(
                            "It cannot be released from here by the open standard: press the"
                                    + " shutter on the camera."));
            return;
        }
        if (nowNanos - asked > LATE_NANOS) {
            telling.release(
                    Optional.of("It was sending a file and was not released: press again."));
            return;
        }
        try {
            session.capture();
            telling.release(Optional.empty());
        } catch (RefusedException e) {
            telling.release(
                    Optional.of("It was not released: " + e.getMessage() + ". Press again."));
        }
    }

    /**
     * Turns one dial, or only looks where it stands.
     *
     * @throws RefusedException if the camera is busy and it may be tried again
     */
    private void turn(Dial dial, CameraSettings settings, boolean setting, long nowNanos)
            throws LinkDownException, RefusedException {
        if (!dial.offeredBy(camera)) {
            byHand.put(dial, "it takes no " + dial.words() + " from here");
            return;
        }
        try {
            DevicePropDesc described = session.describe(dial.property());
            DialChoice choice = DialChoice.of(dial, described, settings);
            if (choice instanceof DialChoice.Set set && setting) {
                session.set(described, new PropertyValue.Whole(set.value()));
                described = session.describe(dial.property());
                choice = DialChoice.of(dial, described, settings);
                if (choice instanceof DialChoice.Set) {
                    toCheck = true;
                    retryNanos = nowNanos + SHOWN_LATER_NANOS;
                }
            }
            if (choice instanceof DialChoice.ByHand hand) {
                byHand.put(dial, hand.why());
            } else if (choice instanceof DialChoice.Set) {
                byHand.put(dial, "it stands at " + stands(dial, described));
            } else {
                byHand.remove(dial);
            }
        } catch (RefusedException e) {
            if (e.is(ResponseCode.DEVICE_BUSY) && busy < MOST_BUSY) {
                throw e;
            }
            byHand.put(
                    dial,
                    e.is(ResponseCode.ACCESS_DENIED)
                            ? "it refuses to be set from here; is it on automatic?"
                            : e.getMessage());
        }
    }

    private static String stands(Dial dial, DevicePropDesc described) {
        return described.current() instanceof PropertyValue.Whole whole
                ? dial.onCamera(whole.number())
                : "something else";
    }

    private boolean canRelease() {
        return camera != null && camera.offers(Operation.INITIATE_CAPTURE);
    }

    private void tell() {
        List<String> todo = new ArrayList<>();
        wanted.ifPresent(
                settings -> {
                    byHand.forEach(
                            (dial, why) ->
                                    todo.add(
                                            "set %s on the camera: %s"
                                                    .formatted(dial.planned(settings), why)));
                    todo.add(
                            "set white balance %s K on the camera: the open standard has no setting"
                                            .formatted(PlanWords.number(settings.kelvin()))
                                    + " for it in kelvin");
                });
        Standing standing = new Standing(camera != null, canRelease(), todo);
        if (told.isPresent() && told.get().equals(standing)) {
            return;
        }
        told = Optional.of(standing);
        Consumer<Standing> to;
        synchronized (lock) {
            to = watcher;
        }
        to.accept(standing);
    }
}
