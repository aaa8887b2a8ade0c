package lookstep.server.output;

import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.protocols.sacn.SacnDiscovery;
import lookstep.protocols.sacn.SacnSequence;
import lookstep.protocols.sacn.SacnSync;
import lookstep.protocols.wire.DatagramPort;
import lookstep.protocols.wire.Datagrams;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.Sending;

/**
 * Sends universes over a network (ANSI E1.31): on each beat every source is asked once, and what
 * has changed, or has to be said again, goes out. A network that is lost is opened again until it
 * is back; then all is said anew.
 *
 * <p>A loop object: {@link #doWork} does one step and says when it wants the next. It never waits
 * for the network.
 */
public final class SacnDriver implements AutoCloseable {
    /** As on a serial line, so that both show a change at the same pace. */
    static final long BEAT_NANOS = DmxTiming.STEADY.periodNanos();

    /**
     * Never faster than a line of 512 slots could carry (clause 6.6.1; the limits are those of ANSI
     * E1.11).
     */
    static final long LEAST_BEAT_NANOS =
            DmxTiming.LEAST_BREAK_NANOS
                    + DmxTiming.LEAST_MARK_AFTER_BREAK_NANOS
                    + DmxTiming.wireNanos(DmxPacket.SLOTS);

    /** Clause 6.2.6: a sender that ends says so three times. */
    static final int ENDINGS = 3;

    /** E131_UNIVERSE_DISCOVERY_INTERVAL, appendix A. */
    static final long DISCOVERY_NANOS = 10_000_000_000L;

    static final long REOPEN_NANOS = 500_000_000;
    static final long LOOK_AT_NETWORK_NANOS = 500_000_000;

    private final DatagramPort port;
    private final SacnSetup setup;
    private final List<SacnStream> streams;
    private final List<SacnTarget> targets;
    private final List<byte[]> discovery;
    private final Consumer<LineState> told;
    private final Periods periods = new Periods();
    private final AtomicLong dropped = new AtomicLong();

    private LineState said;
    private long due;
    private long plannedBeat;
    private long nextLook;
    private long nextDiscovery;
    private int syncSequence;
    private int endings;
    private volatile Datagrams open;
    private volatile boolean ending;
    private volatile boolean ended;

    /**
     * @param port where datagrams go out, such as {@link SacnSetup#port}
     * @param sources what is to be on each universe of the set-up; each is asked once a beat, on
     *     the driver's thread
     * @param told is called on the driver's thread, once for each change
     */
    public SacnDriver(
            DatagramPort port,
            SacnSetup setup,
            IntFunction<PacketSource> sources,
            Consumer<LineState> told) {
        this.port = port;
        this.setup = setup;
        this.told = told;
        streams =
                setup.universes().stream()
                        .map(n -> new SacnStream(setup, n, source(sources, n)))
                        .toList();
        targets =
                Stream.concat(
                                setup.multicast() ? Stream.of(SacnTarget.groups()) : Stream.empty(),
                                setup.unicast().stream().map(SacnTarget::machine))
                        .toList();
        TreeSet<Integer> listed = new TreeSet<>(setup.universes());
        setup.syncUniverse().ifPresent(listed::add);
        discovery =
                SacnDiscovery.pages(setup.cid(), setup.sourceName(), listed).stream()
                        .map(SacnDiscovery::encode)
                        .toList();
    }

    private static PacketSource source(IntFunction<PacketSource> sources, int universe) {
        PacketSource source = sources.apply(universe);
        if (source == null) {
            throw new IllegalArgumentException("universe " + universe + ": has no source");
        }
        return source;
    }

    /**
     * Does what is due; returns the time on the same clock at which it wants to be called again.
     */
    public long doWork(long nowNanos) {
        if (due - nowNanos > 0) {
            return due;
        }
        try {
            due = advance(nowNanos);
        } catch (LineLostException lost) {
            shut();
            due = nowNanos + REOPEN_NANOS;
            say(new LineState(false, lost.getMessage()));
        } catch (RuntimeException fault) {
            // Not foreseen; but the lights must come back all the same.
            shut();
            due = nowNanos + REOPEN_NANOS;
            say(new LineState(false, port.name() + ": " + fault + "; opening it again"));
            throw fault;
        }
        return due;
    }

    private long advance(long now) throws LineLostException {
        if (ended) {
            return now + REOPEN_NANOS;
        }
        if (open == null) {
            open = port.open();
            periods.restart();
            streams.forEach(SacnStream::sayAgain);
            targets.forEach(target -> target.restart(now));
            plannedBeat = now;
            nextLook = now + LOOK_AT_NETWORK_NANOS;
            nextDiscovery = now;
        } else if (now - nextLook >= 0) {
            open.requireUp();
            nextLook = now + LOOK_AT_NETWORK_NANOS;
        }
        periods.broke(now);
        if (ending) {
            sayEnding(now);
        } else {
            beat(now);
            say(state(now));
        }
        return nextBeat(now);
    }

    private void beat(long now) throws LineLostException {
        // all are asked before any is sent, so that they belong to one moment
        for (SacnStream stream : streams) {
            stream.ask(now);
        }
        boolean any = false;
        for (SacnStream stream : streams) {
            Optional<byte[]> datagram = stream.datagram(now);
            if (datagram.isPresent()) {
                any = true;
                if (send(datagram.get(), stream.universe(), now)) {
                    stream.went(now);
                }
            }
        }
        if (any && setup.syncUniverse().isPresent()) {
            int universe = setup.syncUniverse().getAsInt();
            send(new SacnSync(setup.cid(), syncSequence, universe).encode(), universe, now);
            syncSequence = SacnSequence.next(syncSequence);
        }
        if (now - nextDiscovery >= 0) {
            nextDiscovery = now + DISCOVERY_NANOS;
            for (byte[] page : discovery) {
                // nobody's light hangs on it, so a refusal is not told
                open.send(page, SacnAddress.group(SacnAddress.DISCOVERY_UNIVERSE));
            }
        }
    }

    /** Sends to all; true unless all let it go. */
    private boolean send(byte[] datagram, int universe, long now) throws LineLostException {
        boolean went = false;
        for (SacnTarget target : targets) {
            Sending outcome = open.send(datagram, target.of(universe));
            target.note(outcome, now);
            if (outcome instanceof Sending.Dropped) {
                dropped.incrementAndGet();
            } else {
                went = true;
            }
        }
        return went;
    }

    private void sayEnding(long now) throws LineLostException {
        for (SacnStream stream : streams) {
            Optional<byte[]> datagram = stream.ending();
            if (datagram.isPresent()) {
                send(datagram.get(), stream.universe(), now);
            }
        }
        endings++;
        if (endings == ENDINGS) {
            ended = true;
            shut();
        }
    }

    /** On the beat, but never faster than the standard allows; a beat that was missed is let go. */
    private long nextBeat(long now) {
        plannedBeat += BEAT_NANOS;
        if (plannedBeat - now < LEAST_BEAT_NANOS) {
            plannedBeat = now + LEAST_BEAT_NANOS;
        }
        return plannedBeat;
    }

    /**
     * Ends in order: the next three beats say that this sender ends, then nothing more goes out.
     * Any thread.
     */
    public void terminate() {
        ending = true;
    }

    /** Whether the end was said three times. Any thread. */
    public boolean ended() {
        return ended;
    }

    /** Beat to beat, as it really went. */
    public Periods periods() {
        return periods;
    }

    /** How many datagrams were let go because the network did not take them. Any thread. */
    public long dropped() {
        return dropped.get();
    }

    /**
     * Says at once what is left to say of the end, and closes; call it after the thread that drives
     * has stopped.
     */
    @Override
    public void close() {
        try {
            while (open != null && !ended) {
                sayEnding(due);
            }
        } catch (LineLostException gone) {
            // then nobody can be told; lights notice by themselves after 2.5 s
        } finally {
            ended = true;
            shut();
        }
    }

    private void shut() {
        Datagrams was = open;
        open = null;
        if (was != null) {
            was.close();
        }
    }

    private void say(LineState state) {
        if (!state.equals(said)) {
            said = state;
            told.accept(state);
        }
    }

    private LineState state(long now) {
        String troubles =
                targets.stream()
                        .flatMap(target -> target.trouble().stream())
                        .map(trouble -> "; " + trouble)
                        .collect(Collectors.joining());
        return new LineState(
                targets.stream().anyMatch(target -> target.works(now)), upWords() + troubles);
    }

    private String upWords() {
        String universes =
                setup.universes().stream().map(String::valueOf).collect(Collectors.joining(", "));
        return "%s, sACN universe%s %s, a packet every %d ms while anything changes"
                .formatted(
                        port.name(),
                        setup.universes().size() == 1 ? "" : "s",
                        universes,
                        Math.round(BEAT_NANOS / 1e6));
    }
}
