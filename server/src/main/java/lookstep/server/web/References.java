package lookstep.server.web;

import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import io.undertow.util.PathTemplateMatch;
import io.undertow.util.StatusCodes;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Supplier;

/** The pictures that a plan names: files beside it, and no others. */
final class References {
    private static final long MOST_BYTES = 30L << 20;
    private static final Map<String, String> KINDS =
            Map.of(
                    "jpg",
                    "image/jpeg",
                    "jpeg",
                    "image/jpeg",
                    "png",
                    "image/png",
                    "webp",
                    "image/webp");

    private final Path folder;
    private final Supplier<List<String>> names;
    private final Executor reading;

    /**
     * @param folder the plan file's
     * @param names as the plan has them now
     */
    References(Path folder, Supplier<List<String>> names, Executor reading) {
        this.folder = folder.toAbsolutePath().normalize();
        this.names = names;
        this.reading = reading;
    }

    /** {@code /references/1}. */
    void picture(HttpServerExchange exchange) {
        exchange.dispatch(reading, (HttpHandler) this::read);
    }

    private void read(HttpServerExchange exchange) {
        String number =
                exchange.getAttachment(PathTemplateMatch.ATTACHMENT_KEY)
                        .getParameters()
                        .get("number");
        Optional<Path> file = file(number);
        if (file.isEmpty()) {
            exchange.setStatusCode(StatusCodes.NOT_FOUND);
            exchange.endExchange();
            return;
        }
        try {
            byte[] bytes = Files.readAllBytes(file.get());
            exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, kind(file.get()).orElseThrow());
            exchange.getResponseSender().send(ByteBuffer.wrap(bytes));
        } catch (IOException gone) {
            exchange.setStatusCode(StatusCodes.NOT_FOUND);
            exchange.endExchange();
        }
    }

    /** The file of this number; empty if it is not there, is no picture, or lies elsewhere. */
    Optional<Path> file(String number) {
        List<String> all = names.get();
        if (!number.matches("[1-9]\\d{0,3}") || Integer.parseInt(number) > all.size()) {
            return Optional.empty();
        }
        try {
            Path real = folder.resolve(all.get(Integer.parseInt(number) - 1)).toRealPath();
            boolean here = real.startsWith(folder.toRealPath());
            return here
                            && Files.isRegularFile(real)
                            && kind(real).isPresent()
                            && Files.size(real) <= MOST_BYTES
                    ? Optional.of(real)
                    : Optional.empty();
        } catch (IOException | RuntimeException notThere) {
            return Optional.empty();
        }
    }

    private static Optional<String> kind(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        return Optional.ofNullable(KINDS.get(name.substring(name.lastIndexOf('.') + 1)));
    }
}
