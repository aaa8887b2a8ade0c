package lookstep.simulator.gear;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;

/** What is on a camera's card, by handle. Any thread. */
final class CameraCard {
    /** First card of the first slot. */
    static final int STORAGE = 0x0001_0001;

    /** Some handle with its highest bit set, as some cameras have them. */
    private static final int FIRST_HANDLE = 0x9100_0001;

    private final Map<Integer, Stored> objects = new LinkedHashMap<>();
    private int nextHandle = FIRST_HANDLE;
    private final int folder;

    /**
     * One object.
     *
     * @param info as it is claimed, whatever the content
     * @param content shared, not to be changed
     * @param thumb a JPEG, if there is one
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Stored(ObjectInfo info, byte[] content, Optional<byte[]> thumb) {}

    CameraCard() {
        int root = add(folderInfo(0, "DCIM"), new byte[0], Optional.empty());
        folder = add(folderInfo(root, "100LOOKS"), new byte[0], Optional.empty());
    }

    /** The folder that pictures are in. */
    int folder() {
        return folder;
    }

    synchronized int add(ObjectInfo info, byte[] content, Optional<byte[]> thumb) {
        int handle = nextHandle++;
        objects.put(handle, new Stored(info, content, thumb));
        return handle;
    }

    synchronized void remove(int handle) {
        objects.remove(handle);
    }

    synchronized Optional<Stored> object(int handle) {
        return Optional.ofNullable(objects.get(handle));
    }

    synchronized List<Integer> handles() {
        return List.copyOf(objects.keySet());
    }

    /** Gives all objects other handles, as a camera may between two sessions. */
    synchronized void renumber() {
        List<Stored> all = new ArrayList<>(objects.values());
        objects.clear();
        nextHandle += 0x1000;
        all.forEach(stored -> objects.put(nextHandle++, stored));
    }

    /** As a camera describes a folder. */
    private static ObjectInfo folderInfo(int parent, String name) {
        return new ObjectInfo(
                STORAGE,
                ObjectFormat.ASSOCIATION.code(),
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                parent,
                1,
                0,
                0,
                name,
                "",
                "",
                "");
    }
}
