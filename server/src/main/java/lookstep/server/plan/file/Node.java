package lookstep.server.plan.file;

import java.util.LinkedHashMap;
import java.util.List;

/** A value of the file that knows where it stands. */
sealed interface Node {
    Mark at();

    /** A single value, as written. */
    record Scalar(Mark at, String text, Kind kind) implements Node {
        enum Kind {
            TEXT,
            NUMBER,
            TRUTH,
            NOTHING
        }
    }

    /** A list. */
    record Sequence(Mark at, List<Node> items) implements Node {}

    /** Keys with values, in the order of the file. */
    record Mapping(Mark at, LinkedHashMap<String, Entry> entries) implements Node {}

    /** The place of a key and its value. */
    record Entry(Mark keyAt, Node value) {}

    /** Something that was reported already; say nothing more about it. */
    record Reported(Mark at) implements Node {}
}
