package lookstep.server.ptpip;

import java.util.Optional;
import lookstep.server.gear.WayIn.Incoming;

/** What is told of the link: each state once. One thread. */
final class Telling {
    private final Incoming incoming;
    private Optional<String> connected = Optional.empty();
    private String down = "";
    private Optional<String> disk = Optional.empty();
    private Optional<String> late = Optional.empty();
    private Optional<String> release = Optional.empty();
    private String told = "";
    private boolean toldUp;

    Telling(Incoming incoming) {
        this.incoming = incoming;
    }

    /** The camera can be spoken to; what it is and offers. */
    void up(String words) {
        connected = Optional.of(words);
        release = Optional.empty();
        tell();
    }

    /** It cannot. */
    void down(String words) {
        connected = Optional.empty();
        down = words;
        tell();
    }

    /** What keeps files from being written, and what keeps one from coming. */
    void troubles(Optional<String> ofDisk, Optional<String> ofCamera) {
        disk = ofDisk;
        late = ofCamera;
        tell();
    }

    /** Why the shutter was not released; empty if it was. */
    void release(Optional<String> words) {
        release = words;
        tell();
    }

    private void tell() {
        boolean up = connected.isPresent() && disk.isEmpty();
        StringBuilder words = new StringBuilder(connected.map(is -> disk.orElse(is)).orElse(down));
        if (up) {
            late.ifPresent(more -> words.append(' ').append(more));
            release.ifPresent(more -> words.append(' ').append(more));
        }
        String all = words.toString();
        if (!all.isEmpty() && !(all.equals(told) && up == toldUp)) {
            told = all;
            toldUp = up;
            incoming.tell(up, all);
        }
    }
}
