package lookstep.server.frames;

import java.nio.file.Path;

/**
 * Something about the watched folder that people should know.
 *
 * @param kind what happened
 * @param path the file or folder it is about
 * @param words what happened and what can be done, ready for the pages
 */
public record FolderNote(Kind kind, Path path, String words) {
    /** What can happen. */
    public enum Kind {
        /** A file has been growing, or has been incomplete, for a while. */
        STILL_ARRIVING,
        /** A file that bears a picture's name is none. */
        NOT_A_PICTURE,
        /** A file has stopped growing before it was whole. */
        STOPPED_HALF_WAY,
        /** A file may not be read. */
        UNREADABLE,
        /** The folder is not there any more, or not yet. */
        FOLDER_GONE,
        /** The folder is there. Said only after {@link #FOLDER_GONE}. */
        FOLDER_BACK
    }
}
