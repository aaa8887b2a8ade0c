package lookstep.server.live;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** How the connections to the outside are at the moment. Any thread may tell, any may read. */
public final class Links {
    private final Map<String, Link> links = new LinkedHashMap<>();
    private final Runnable changed;

    /**
     * @param changed is called after each change, by the thread that told it
     */
    public Links(Runnable changed) {
        this.changed = changed;
    }

    public void tell(Link link) {
        synchronized (links) {
            if (link.equals(links.put(link.name(), link))) {
                return;
            }
        }
        changed.run();
    }

    /** In the order in which they were first told of. */
    public List<Link> all() {
        synchronized (links) {
            return new ArrayList<>(links.values());
        }
    }
}
