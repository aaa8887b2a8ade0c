package lookstep.server.web;

import io.undertow.websockets.core.AbstractReceiveListener;
import io.undertow.websockets.core.BufferedTextMessage;
import io.undertow.websockets.core.CloseMessage;
import io.undertow.websockets.core.WebSocketCallback;
import io.undertow.websockets.core.WebSocketChannel;
import io.undertow.websockets.core.WebSockets;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.xnio.IoUtils;

/**
 * Pushes the newest message to every open page of one kind. Whoever reports a change is not held
 * up: the message is made once for all pages, on one thread, and changes that come faster are one.
 * A slow page skips what it was too slow for and never queues.
 */
final class Push {
    static final String ALIVE = "{\"kind\":\"alive\"}";

    private static final int MOST_PAGES = 200;
    private static final long GIVE_UP_MILLIS = 10_000;

    private final Set<Page> pages = ConcurrentHashMap.newKeySet();
    private final Supplier<String> newest;
    private final Executor one;
    private final Runnable counted;
    private final AtomicBoolean due = new AtomicBoolean();
    private volatile String latest = ALIVE;

    /**
     * Nothing is open yet.
     *
     * @param newest makes the message as it is now
     * @param one runs one thing after the other
     * @param counted is called when a page came or went
     */
    Push(Supplier<String> newest, Executor one, Runnable counted) {
        this.newest = newest;
        this.one = one;
        this.counted = counted;
    }

    int open() {
        return pages.size();
    }

    void add(WebSocketChannel channel) {
        if (pages.size() >= MOST_PAGES) {
            closeOneOfTheMost();
        }
        Page page = new Page(channel);
        pages.add(page);
        channel.addCloseTask(
                c -> {
                    pages.remove(page);
                    counted.run();
                });
        channel.getReceiveSetter().set(new NothingToSay());
        channel.resumeReceives();
        one.execute(
                () -> {
                    latest = newest.get();
                    page.send();
                });
        counted.run();
    }

    /** Whoever fills all places from one address loses one of them, not the tablet. */
    private void closeOneOfTheMost() {
        pages.stream().collect(Collectors.groupingBy(Page::address)).values().stream()
                .max(Comparator.comparingInt(List::size))
                .ifPresent(most -> IoUtils.safeClose(most.get(0).channel));
    }

    /** Something changed. */
    void changed() {
        if (due.getAndSet(true)) {
            return;
        }
        one.execute(
                () -> {
                    due.set(false);
                    latest = newest.get();
                    pages.forEach(Page::send);
                });
    }

    /** Lets pages that hear nothing else know that the line is not dead. */
    void alive() {
        one.execute(() -> pages.forEach(Page::alive));
    }

    void close() {
        pages.forEach(page -> IoUtils.safeClose(page.channel));
    }

    private final class Page implements WebSocketCallback<Void> {
        private final WebSocketChannel channel;
        private boolean sending;
        private boolean again;

        Page(WebSocketChannel channel) {
            this.channel = channel;
        }

        String address() {
            return channel.getSourceAddress().getAddress().getHostAddress();
        }

        void send() {
            synchronized (this) {
                again = sending;
                if (sending) {
                    return;
                }
                sending = true;
            }
            WebSockets.sendText(latest, channel, this, GIVE_UP_MILLIS);
        }

        void alive() {
            synchronized (this) {
                if (sending) {
                    return;
                }
                sending = true;
            }
            WebSockets.sendText(ALIVE, channel, this, GIVE_UP_MILLIS);
        }

        @Override
        public void complete(WebSocketChannel sent, Void context) {
            boolean more;
            synchronized (this) {
                sending = false;
                more = again;
                again = false;
            }
            if (more) {
                send();
            }
        }

        @Override
        public void onError(WebSocketChannel failed, Void context, Throwable why) {
            IoUtils.safeClose(failed);
        }
    }

    /** Pages only listen: whoever sends a long message is not one of ours. */
    private static final class NothingToSay extends AbstractReceiveListener {
        @Override
        protected long getMaxTextBufferSize() {
            return 1024;
        }

        @Override
        protected long getMaxBinaryBufferSize() {
            return 1024;
        }

        @Override
        protected void onError(WebSocketChannel channel, Throwable error) {
            IoUtils.safeClose(channel);
        }

        @Override
        protected void onCloseMessage(CloseMessage message, WebSocketChannel channel) {
            IoUtils.safeClose(channel);
        }

        @Override
        protected void onFullTextMessage(WebSocketChannel channel, BufferedTextMessage message) {
            // nothing a page says over this way changes anything
        }
    }
}
