package lookstep.server.web;

import io.undertow.websockets.core.AbstractReceiveListener;
import io.undertow.websockets.core.WebSocketCallback;
import io.undertow.websockets.core.WebSocketChannel;
import io.undertow.websockets.core.WebSockets;
import java.io.IOException;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.xnio.IoUtils;

/**
 * Pushes the newest message to every open page of one kind. A slow page skips what it was too slow
 * for and never queues: there is one message under way and at most one wish for a newer.
 */
final class Push {
    private static final int MOST_PAGES = 200;
    private static final long GIVE_UP_MILLIS = 10_000;
    static final String ALIVE = "{\"kind\":\"alive\"}";

    private final Set<Page> pages = ConcurrentHashMap.newKeySet();
    private final Supplier<String> newest;
    private final Runnable counted;

    /**
     * @param newest makes the message as it is now
     * @param counted is called when a page came or went
     */
    Push(Supplier<String> newest, Runnable counted) {
        this.newest = newest;
        this.counted = counted;
    }

    int open() {
        return pages.size();
    }

    void add(WebSocketChannel channel) {
        if (pages.size() >= MOST_PAGES) {
            IoUtils.safeClose(channel);
            return;
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
        page.send();
        counted.run();
    }

    /** Something changed. */
    void changed() {
        for (Page page : pages) {
            page.send();
        }
    }

    /** Lets pages that hear nothing else know that the line is not dead. */
    void alive() {
        for (Page page : pages) {
            page.alive();
        }
    }

    void close() {
        for (Page page : pages) {
            IoUtils.safeClose(page.channel);
        }
    }

    private final class Page implements WebSocketCallback<Void> {
        private final WebSocketChannel channel;
        private boolean sending;
        private boolean again;

        Page(WebSocketChannel channel) {
            this.channel = channel;
        }

        void send() {
            synchronized (this) {
                if (sending) {
                    again = true;
                    return;
                }
                sending = true;
            }
            WebSockets.sendText(newest.get(), channel, this, GIVE_UP_MILLIS);
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
            synchronized (this) {
                sending = false;
                if (!again) {
                    return;
                }
                again = false;
            }
            send();
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
        protected void onCloseMessage(
                io.undertow.websockets.core.CloseMessage message, WebSocketChannel channel) {
            IoUtils.safeClose(channel);
        }

        @Override
        protected void onFullTextMessage(
                WebSocketChannel channel, io.undertow.websockets.core.BufferedTextMessage message)
                throws IOException {
            // nothing a page says over this way changes anything
        }
    }
}
