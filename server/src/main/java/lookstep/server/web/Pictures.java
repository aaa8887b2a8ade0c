package lookstep.server.web;

import static lookstep.server.pictured.LookPictures.Size.LARGE;
import static lookstep.server.pictured.LookPictures.Size.SMALL;

import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import io.undertow.util.HttpString;
import io.undertow.util.PathTemplateMatch;
import io.undertow.util.StatusCodes;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.Deque;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BiFunction;
import java.util.function.BooleanSupplier;
import java.util.function.LongPredicate;
import lookstep.server.frames.FullSize;
import lookstep.server.frames.PreviewResult;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.intake.FramePictures;
import lookstep.server.intake.FramePictures.Early;
import lookstep.server.pictured.LookPictures.Pictured;
import lookstep.server.pictured.LookPictures.Size;

/** Previews of frames, and computed pictures. */
final class Pictures {
    private final FramePictures frames;
    private final BiFunction<String, Size, Optional<Versioned>> looks;

    /** Each takes a second of a large original: more than these would only be in the way. */
    private static final int MOST_PARTS = 3;

    /** Its address has a version: another picture has another address. */
    private static final String VERSIONED = "private, max-age=3600";

    private static final HttpString FROM = new HttpString("X-Lookstep-From");

    private final LongPredicate seenByBand;
    private final BooleanSupplier earlyForBand;
    private final Executor decoder;
    private final Executor detailer;
    private final AtomicInteger parts = new AtomicInteger();
    private final Executor renderer;

    Pictures(
            FramePictures frames,
            LongPredicate seenByBand,
            BooleanSupplier earlyForBand,
            BiFunction<String, Size, Optional<Versioned>> looks,
            Executor decoder,
            Executor detailer,
            Executor renderer) {
        this.seenByBand = seenByBand;
        this.earlyForBand = earlyForBand;
        this.decoder = decoder;
        this.detailer = detailer;
        this.renderer = renderer;
        this.frames = frames;
        this.looks = looks;
    }

    /**
     * Made again off the thread of the sockets if it is no longer in memory; sent without holding
     * any. A picture that is in memory waits for no other.
     */
    void frame(HttpServerExchange exchange) {
        Optional<PreviewResult> there =
                number(exchange).flatMap(frames::inMemory).or(() -> early(exchange));
        if (there.isPresent()) {
            found(exchange, there);
        } else {
            exchange.dispatch(decoder, (HttpHandler) this::made);
        }
    }

    /** Only what the photographer shows: whoever counts through the numbers sees no more. */
    void frameForBand(HttpServerExchange exchange) {
        if (number(exchange).map(seenByBand::test).orElseGet(earlyForBand::getAsBoolean)) {
            frame(exchange);
        } else {
            missing(exchange, "There is no such frame.\n");
        }
    }

    private void made(HttpServerExchange exchange) {
        found(exchange, number(exchange).flatMap(frames::picture));
    }

    private static void found(HttpServerExchange exchange, Optional<PreviewResult> made) {
        if (made.isEmpty()) {
            missing(exchange, "There is no such frame.\n");
        } else if (made.get() instanceof FrameProblem) {
            missing(exchange, "This picture cannot be shown.\n");
        } else {
            jpeg(exchange, ((Preview) made.get()).jpeg());
        }
    }

    /**
     * A look before it is made, {@code size=small} for lists. Rendered on a thread of its own, one
     * after the other: a press is never behind a picture.
     */
    void prediction(HttpServerExchange exchange) {
        exchange.dispatch(renderer, (HttpHandler) this::rendered);
    }

    private void rendered(HttpServerExchange exchange) {
        Size size = asked(exchange, "size").filter("small"::equals).isPresent() ? SMALL : LARGE;
        Optional<Versioned> picture = looks.apply(parameter(exchange, "shot"), size);
        if (picture.isEmpty()) {
            missing(exchange, "There is no such shot.\n");
        } else {
            // What came to be otherwise since the address was made is not kept under it.
            boolean asAsked =
                    asked(exchange, "v").filter(picture.get().version()::equals).isPresent();
            pictured(exchange, picture.get().picture(), asAsked);
        }
    }

    /** A picture of a look, and what its address would be now. */
    record Versioned(Pictured picture, String version) {}

    /** With where it comes from in a header, for whoever asks for a picture by a script. */
    static void pictured(HttpServerExchange exchange, Pictured picture, boolean keep) {
        exchange.getResponseHeaders().put(FROM, picture.origin().fromPlates() ? "plates" : "model");
        if (keep) {
            exchange.getResponseHeaders().put(Headers.CACHE_CONTROL, VERSIONED);
        }
        jpeg(exchange, picture.jpeg());
    }

    /** For the row of the newest frames. */
    void thumbnail(HttpServerExchange exchange) {
        exchange.dispatch(
                detailer,
                (HttpHandler)
                        e ->
                                number(e)
                                        .flatMap(frames::thumbnail)
                                        .ifPresentOrElse(
                                                t -> jpeg(e, t.jpeg()),
                                                () -> missing(e, "There is no such frame.\n")));
    }

    /**
     * A part of an original, pixel for pixel: {@code x} and {@code y}, 0 to 1, are the place that
     * is to be in its middle, {@code w} and {@code h} its size.
     */
    void original(HttpServerExchange exchange) {
        if (parts.incrementAndGet() > MOST_PARTS) {
            parts.decrementAndGet();
            exchange.setStatusCode(StatusCodes.SERVICE_UNAVAILABLE);
            Gate.say(exchange, "Other parts are being made; ask again.\n");
            return;
        }
        exchange.dispatch(detailer, (HttpHandler) this::counted);
    }

    private void counted(HttpServerExchange exchange) {
        try {
            part(exchange);
        } catch (NumberFormatException wrong) {
            exchange.setStatusCode(StatusCodes.BAD_REQUEST);
            Gate.say(exchange, "x and y are from 0 to 1, w and h are pixels.\n");
        } finally {
            parts.decrementAndGet();
        }
    }

    private void part(HttpServerExchange exchange) {
        Optional<Path> original = number(exchange).flatMap(frames::original);
        Optional<FullSize.Size> size = original.flatMap(FullSize::size);
        if (size.isEmpty()) {
            missing(exchange, "There is no such frame, or its original is not there.\n");
            return;
        }
        int width = pixels(exchange, "w");
        int height = pixels(exchange, "h");
        PreviewResult part =
                FullSize.crop(
                        original.get(),
                        corner(fraction(exchange, "x"), size.get().widthPixels(), width),
                        corner(fraction(exchange, "y"), size.get().heightPixels(), height),
                        width,
                        height);
        if (part instanceof Preview preview) {
            jpeg(exchange, preview.jpeg());
        } else {
            missing(exchange, "This picture cannot be shown.\n");
        }
    }

    /** So that the part lies within the picture, if it is not larger. */
    private static int corner(double middle, int whole, int part) {
        long wanted = Math.round(middle * whole - part / 2.0);
        return (int) Math.max(0, Math.min(wanted, whole - (long) part));
    }

    private static double fraction(HttpServerExchange exchange, String name) {
        double value = asked(exchange, name).map(Double::parseDouble).orElse(0.5);
        return value >= 0 && value <= 1 ? value : 0.5;
    }

    private static int pixels(HttpServerExchange exchange, String name) {
        int value = asked(exchange, name).map(Integer::parseInt).orElse(FullSize.MOST_PIXELS);
        return Math.max(1, Math.min(FullSize.MOST_PIXELS, value));
    }

    private static Optional<String> asked(HttpServerExchange exchange, String name) {
        return Optional.ofNullable(exchange.getQueryParameters().get(name)).map(Deque::peekFirst);
    }

    /** A picture that came ahead of its file, as long as it is the newest. */
    private Optional<PreviewResult> early(HttpServerExchange exchange) {
        String name = parameter(exchange, "number");
        return frames.early().filter(e -> name.equals("early-" + e.id())).map(Early::picture);
    }

    private static Optional<Long> number(HttpServerExchange exchange) {
        try {
            return Optional.of(Long.parseLong(parameter(exchange, "number")));
        } catch (NumberFormatException notANumber) {
            return Optional.empty();
        }
    }

    /** The file's name without its ending; nothing if it is no JPEG. */
    static String parameter(HttpServerExchange exchange, String name) {
        String file =
                exchange.getAttachment(PathTemplateMatch.ATTACHMENT_KEY).getParameters().get(name);
        return file.endsWith(".jpg") ? file.substring(0, file.length() - ".jpg".length()) : "";
    }

    private static void jpeg(HttpServerExchange exchange, byte[] bytes) {
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "image/jpeg");
        exchange.getResponseSender().send(ByteBuffer.wrap(bytes));
    }

    private static void missing(HttpServerExchange exchange, String words) {
        exchange.setStatusCode(StatusCodes.NOT_FOUND);
        Gate.say(exchange, words);
    }
}
