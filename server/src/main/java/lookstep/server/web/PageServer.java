package lookstep.server.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import io.undertow.Undertow;
import io.undertow.UndertowOptions;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import lookstep.server.intake.FramePictures;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.lighting.Nudging;
import lookstep.server.lighting.Walking;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.Showing;
import lookstep.server.pictured.LookPictures;
import lookstep.server.pictured.LookPictures.Pictured;
import lookstep.server.pictured.LookPictures.Size;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plates.PlatesNow;
import lookstep.server.tryout.TryOuts;
import lookstep.server.web.BandMessage.BandFrame;
import lookstep.server.web.CrewMessage.Pages;
import org.xnio.Options;

/** Serves the pages and pushes to them. */
public final class PageServer implements AutoCloseable {

    private static final long LARGEST_PRESS_BYTES = 1 << 16;

    /** A tablet that walked off in the middle of a picture. */
    private static final int STUCK_READER_MILLIS = 10_000;

    /**
     * What the pages are about.
     *
     * @param live the state, and where presses go
     * @param links how the connections are
     * @param pictures of frames
     * @param copying how the copies of frames are, in words
     * @param byHand what is to be set on the camera by hand
     * @param looks pictures of looks before they are made
     * @param tryOuts looks that nobody has planned yet
     * @param desk the plan file, and what is to be said of the plan
     * @param lightings plan and light as they stand in a state
     * @param carried the outputs of each universe that goes out, in words
     * @param messages plan and state in words
     * @param plates how the plates are
     * @param shutter releases the camera, where that can be done from here
     * @param keys who may open what
     * @param epochMillis the wall clock
     */
    public record About(
            Live live,
            Links links,
            FramePictures pictures,
            Supplier<Map<Integer, String>> copying,
            Supplier<List<String>> byHand,
            LookPictures looks,
            TryOuts tryOuts,
            PlanDesk desk,
            Lightings lightings,
            Map<Integer, List<String>> carried,
            Messages messages,
            Supplier<PlatesNow> plates,
            Optional<Runnable> shutter,
            Keys keys,
            LongSupplier epochMillis) {}

    private final About about;
    private final ObjectMapper json = JsonMapper.builder().build();
    private final Push band;
    private final Push crew;
    private final Undertow undertow;
    private final ExecutorService pushing;
    private final ExecutorService pressing;
    private final ExecutorService decoding;
    private final ExecutorService detailing;
    private final ExecutorService rendering;
    private final ExecutorService mixing;
    private final ExecutorService counting;
    private final ExecutorService suggesting;

    private PageServer(About about, String host, int port) {
        this.about = about;
        pushing = oneThread("push");
        pressing = oneThread("presses");
        decoding = oneThread("pictures");
        detailing = oneThread("originals");
        rendering = oneThread("predictions");
        mixing = oneThread("mixes");
        counting = oneThread("counts");
        suggesting = oneThread("suggestions");
        crew = new Push(this::crewMessage, pushing, () -> {});
        band = new Push(this::bandMessage, pushing, crew::changed);
        Gate gate = new Gate(about.keys());
        Presses presses =
                new Presses(
                        about.live(),
                        this::lightPresses,
                        new FramePresses(about.live(), about.pictures(), about.lightings()),
                        new WindowPresses(
                                about.live(),
                                about.lightings(),
                                about.desk()::variety,
                                about.epochMillis()),
                        new PlatePresses(
                                about.live(),
                                about.lightings(),
                                about.plates(),
                                about.epochMillis()),
                        about.desk(),
                        about.shutter(),
                        json,
                        this::crewMessage,
                        pressing);
        Pictures pictures =
                new Pictures(
                        about.pictures(),
                        this::seenByBand,
                        this::seesComing,
                        this::prediction,
                        decoding,
                        detailing,
                        rendering);
        Trying trying =
                new Trying(
                        this::lighting,
                        () -> lighting().shot(about.live().state()),
                        about.looks(),
                        about.tryOuts(),
                        about.desk(),
                        json,
                        mixing,
                        counting,
                        suggesting,
                        pressing);
        undertow =
                Undertow.builder()
                        .addHttpListener(port, host)
                        .setIoThreads(2)
                        .setWorkerThreads(8)
                        .setServerOption(UndertowOptions.MAX_ENTITY_SIZE, LARGEST_PRESS_BYTES)
                        .setServerOption(UndertowOptions.REQUEST_PARSE_TIMEOUT, 10_000)
                        .setServerOption(UndertowOptions.NO_REQUEST_TIMEOUT, 60_000)
                        .setServerOption(UndertowOptions.MAX_HEADERS, 64)
                        .setServerOption(UndertowOptions.BUFFER_PIPELINED_DATA, false)
                        .setSocketOption(Options.WRITE_TIMEOUT, STUCK_READER_MILLIS)
                        .setHandler(
                                new Routes(
                                                gate,
                                                presses,
                                                pictures,
                                                new References(
                                                        about.desk().folder(),
                                                        this::references,
                                                        decoding),
                                                trying,
                                                this::rig,
                                                this::allFrames,
                                                band,
                                                crew)
                                        .table())
                        .build();
    }

    /**
     * Starts to serve.
     *
     * @param port 0 for any free one
     * @throws IOException if the address cannot be had; the message says what to do
     */
    public static PageServer start(About about, String host, int port) throws IOException {
        PageServer server = new PageServer(about, host, port);
        try {
            server.undertow.start();
        } catch (RuntimeException e) {
            throw new IOException(
                    "cannot serve pages at %s:%d (%s): choose another with --http HOST:PORT, port 0 for any free one"
                            .formatted(host, port, reason(e)),
                    e);
        }
        return server;
    }

    /** One thing after the other; what comes after the end is let go. */
    private static ExecutorService oneThread(String name) {
        return new ThreadPoolExecutor(
                1,
                1,
                0,
                TimeUnit.SECONDS,
                new LinkedBlockingQueue<>(),
                r -> {
                    Thread t = new Thread(r, name);
                    t.setDaemon(true);
                    return t;
                },
                new ThreadPoolExecutor.DiscardPolicy());
    }

    private static String reason(Throwable e) {
        Throwable cause = e;
        while (cause.getCause() != null) {
            cause = cause.getCause();
        }
        return cause.getMessage();
    }

    /** The port that it got. */
    public int port() {
        return ((InetSocketAddress) undertow.getListenerInfo().get(0).getAddress()).getPort();
    }

    /** State, links or frames changed: tell every page. */
    public void changed() {
        band.changed();
        crew.changed();
    }

    /**
     * Lets pages that hear nothing else know that the line is not dead; call it every few seconds.
     */
    public void alive() {
        band.alive();
        crew.alive();
    }

    private List<String> references() {
        return about.lightings().read().around().band().pictures();
    }

    /** Of the plan as it is now. */
    private LightPresses lightPresses() {
        Lighting lighting = lighting();
        ShootPlan plan = lighting.plan();
        return new LightPresses(plan, new Nudging(plan, lighting), new Walking(plan));
    }

    private Lighting lighting() {
        return about.lightings().of(about.live().state());
    }

    private void rig(HttpServerExchange exchange) {
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
        exchange.getResponseSender().send(write(RigParts.of(lighting(), about.carried())));
    }

    /** The shot as it would be now, with what was changed on the set. */
    private Optional<Pictures.Versioned> prediction(String shotId, Size size) {
        LiveState state = about.live().state();
        Lighting lighting = about.lightings().of(state);
        return lighting.plan()
                .shot(shotId)
                .map(
                        s -> {
                            Pictured picture =
                                    about.looks()
                                            .picture(
                                                    lighting.plan(),
                                                    s,
                                                    lighting.look(state, s),
                                                    size);
                            return new Pictures.Versioned(
                                    picture,
                                    PictureVersion.of(
                                            state,
                                            state.changes().of(s.id(), s.look()),
                                            picture.origin()));
                        });
    }

    /** Whether the band sees what is still on its way; plates are not for them. */
    private boolean seesComing() {
        LiveState state = about.live().state();
        return state.showing().mode() == Showing.Mode.ALL && state.plates().run().isEmpty();
    }

    private boolean seenByBand(long number) {
        LiveState state = about.live().state();
        return state.showing().shows(state.frames(), (int) number);
    }

    private String bandMessage() {
        FramePictures pictures = about.pictures();
        LiveState state = about.live().state();
        Optional<BandFrame> coming =
                seesComing()
                        ? pictures.early()
                                .map(
                                        e ->
                                                new BandFrame(
                                                        0,
                                                        "/frames/early-%d.jpg".formatted(e.id())))
                        : Optional.empty();
        return write(
                about.messages()
                        .band(
                                coming.or(
                                        () ->
                                                pictures.forBand(state)
                                                        .map(
                                                                f ->
                                                                        new BandFrame(
                                                                                f.number(),
                                                                                pictures.url(
                                                                                        f))))));
    }

    private String crewMessage() {
        LiveState state = about.live().state();
        return write(about.messages().crew(state, around(state)));
    }

    private void allFrames(HttpServerExchange exchange) {
        LiveState state = about.live().state();
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
        exchange.getResponseSender().send(write(about.messages().allFrames(state, around(state))));
    }

    private Messages.Around around(LiveState state) {
        FramePictures pictures = about.pictures();
        return new Messages.Around(
                pictures.newest(state),
                pictures.forBand(state),
                pictures::url,
                about.copying().get(),
                about.shutter().isPresent(),
                about.byHand().get(),
                about.links().all(),
                new Pages(band.open(), crew.open()),
                about.desk()::variety,
                about.desk().checks(),
                about.desk().standing(),
                about.looks()::origin,
                about.plates().get(),
                about.epochMillis().getAsLong());
    }

    private String write(Object message) {
        try {
            return json.writeValueAsString(message);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        band.close();
        crew.close();
        undertow.stop();
        pushing.shutdownNow();
        // Not now: an interrupt in the middle of a press would close the journal under it.
        pressing.shutdown();
        decoding.shutdownNow();
        detailing.shutdownNow();
        rendering.shutdownNow();
        mixing.shutdownNow();
        counting.shutdownNow();
        suggesting.shutdownNow();
    }
}
