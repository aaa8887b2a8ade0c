package lookstep.server.gear;

import java.io.IOException;
import java.nio.file.Path;

/** A way in for pictures: brings whole files into the frames folder, where they are taken. */
public interface WayIn {
    /** How the pages call it, such as {@code camera 192.168.1.20}; one way, one name. */
    String name();

    /**
     * Begins. What goes wrong later is told, and tried again; it does not end the way.
     *
     * @return ends it, and waits until it has ended
     * @throws IOException if it cannot begin at all, such as for a port that is taken; the message
     *     says what to do
     */
    AutoCloseable start(Incoming incoming) throws IOException;

    /** What a way in says to the shoot. Any thread. */
    interface Incoming {
        /**
         * The frames folder. A way makes itself a folder below it, one level deep, and files appear
         * there under their final names only when they are whole: until then their names begin with
         * a dot.
         */
        Path folder();

        /**
         * A file lies there whole under its final name: nobody need wait whether it grows.
         *
         * @param file below {@link #folder}
         */
        void whole(Path file);

        /**
         * A small picture of a file that is still on its way, to be shown until it is there.
         *
         * @param file where it will be
         * @param jpeg a JPEG, as it came
         */
        void early(Path file, byte[] jpeg);

        /**
         * A file of which a small picture came will not be there under this name: it was deleted in
         * the camera, or has come under another.
         */
        void notComing(Path file);

        /**
         * How the way is doing, for the pages.
         *
         * @param up true if pictures can come
         * @param says in plain words, with what to do if it is down
         */
        void tell(boolean up, String says);
    }
}
