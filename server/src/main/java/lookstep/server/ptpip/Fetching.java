package lookstep.server.ptpip;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.EventPacket;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.ResponseCode;
import lookstep.server.gear.WayIn.Incoming;
import lookstep.server.ptpip.Arriving.Identity;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Brings the new files of one camera, one small step at a time: first what each is and its small
 * picture, newest first; then the files, in the order in which they were made, JPEGs before others.
 * It outlives the sessions: what was half done goes on in the next. One thread.
 */
final class Fetching {
    /** Small enough that a release need not wait long behind it. */
    static final int PART_OCTETS = 1 << 18;

    /** How far back a card is looked through after the camera gave its files other handles. */
    private static final int MOST_LOOKED_THROUGH = 500;

    private static final int REFUSALS_TO_MENTION = 3;
    private static final long DISK_RETRY_NANOS = 2_000_000_000L;
    private static final Set<String> MOVIES = Set.of("mov", "mp4", "avi", "mts", "m2ts", "wav");

    private static final Logger LOG = LoggerFactory.getLogger(Fetching.class);

    private final Landing landing;
    private final Incoming incoming;
    private final Telling telling;
    private final Patience patience;
    private final List<Arriving> arriving = new ArrayList<>();
    private final Set<Integer> known = new HashSet<>();
    private final Set<Integer> taken = new HashSet<>();
    private final Set<Identity> fetched = new HashSet<>();
    private final Deque<Integer> newStores = new ArrayDeque<>();
    private String latestCapture = "";
    private boolean everUp;
    private Session session;
    private boolean parts;
    private boolean thumbs;
    private boolean tells;
    private boolean lookNow;
    private long nextLookNanos;

    Fetching(Landing landing, Incoming incoming, Telling telling, Patience patience) {
        this.landing = landing;
        this.incoming = incoming;
        this.telling = telling;
        this.patience = patience;
    }

    /** A session is open: sees what is on the card, and what came since the last session. */
    void begin(Session opened, DeviceInfo camera, long nowNanos)
            throws LinkDownException, RefusedException {
        session = opened;
        parts = camera.offers(Operation.GET_PARTIAL_OBJECT);
        thumbs = camera.offers(Operation.GET_THUMB);
        tells = camera.tells(EventCode.OBJECT_ADDED);
        for (Arriving file : arriving) {
            file.checked = false;
            file.refusals = 0;
            file.retryNanos = nowNanos;
            if (!parts && !file.complete) {
                file.again();
            }
        }
        if (everUp) {
            look(nowNanos);
        } else {
            first(handles(Operation.ALL_STORAGES), nowNanos);
            everUp = true;
        }
        lookNow = false;
        newStores.clear();
        nextLookNanos = nowNanos + patience.lookNanos();
    }

    /**
     * What is on the card is of other shoots, unless this camera was met before in this one: then
     * it is what was there at that time. After the camera gave its files other handles nobody
     * knows.
     */
    private void first(List<Integer> handles, long nowNanos) {
        Optional<Set<Integer>> before = landing.before();
        boolean sameHandles =
                before.isPresent()
                        && (before.get().isEmpty()
                                || handles.stream().anyMatch(before.get()::contains));
        if (sameHandles) {
            for (int handle : handles) {
                if (!before.get().contains(handle)) {
                    added(handle, nowNanos);
                    arriving.get(arriving.size() - 1).maybeThere = true;
                }
            }
        } else if (before.isEmpty()) {
            try {
                landing.keepBefore(handles);
            } catch (IOException e) {
                LOG.warn("what is on the card is not noted for a later run: {}", e.toString());
            }
        }
        known.addAll(handles);
    }

    /** Takes note of what the camera told; it is acted on in the next steps. */
    void told(EventPacket event, long nowNanos) {
        int first = event.parameters().isEmpty() ? 0 : event.parameters().get(0);
        if (is(event, EventCode.OBJECT_ADDED)) {
            added(first, nowNanos);
        } else if (is(event, EventCode.OBJECT_REMOVED)) {
            known.remove(first);
            taken.remove(first);
            recheck(first, nowNanos);
        } else if (is(event, EventCode.OBJECT_INFO_CHANGED)) {
            recheck(first, nowNanos);
        } else if (is(event, EventCode.STORE_ADDED)) {
            newStores.add(first);
        } else if (is(event, EventCode.UNREPORTED_STATUS) || is(event, EventCode.DEVICE_RESET)) {
            lookNow = true;
        }
    }

    private static boolean is(EventPacket event, EventCode code) {
        return event.event() == code.code();
    }

    private void added(int handle, long nowNanos) {
        if (taken.add(handle)) {
            known.add(handle);
            arriving.add(new Arriving(handle, nowNanos));
        }
    }

    private void recheck(int handle, long nowNanos) {
        for (Arriving file : arriving) {
            if (file.handle == handle && !file.complete) {
                file.checked = false;
                file.retryNanos = nowNanos;
            }
        }
    }

    /** When there is something to do again if nothing is told. */
    long nextNanos(long latestNanos) {
        long next = latestNanos;
        for (Arriving file : arriving) {
            next = earlier(next, file.retryNanos);
        }
        return tells ? next : earlier(next, nextLookNanos);
    }

    private static long earlier(long a, long b) {
        return a - b < 0 ? a : b;
    }

    /**
     * Does one thing.
     *
     * @return false if there is nothing to do now
     */
    boolean step(long nowNanos) throws LinkDownException {
        if (lookNow || (!tells && nowNanos - nextLookNanos >= 0)) {
            lookNow = false;
            nextLookNanos = nowNanos + patience.lookNanos();
            try {
                look(nowNanos);
            } catch (RefusedException busy) {
                lookNow = false;
            }
            return true;
        }
        if (!newStores.isEmpty()) {
            noteStore(newStores.remove());
            return true;
        }
        Optional<Arriving> next = next(nowNanos);
        if (next.isEmpty()) {
            return false;
        }
        Arriving file = next.get();
        try {
            if (!file.checked && !file.complete) {
                readInfo(file);
            } else if (file.wantsThumb()) {
                thumb(file);
            } else {
                bring(file);
            }
            file.trouble = Optional.empty();
        } catch (RefusedException e) {
            refused(file, e, nowNanos);
        } catch (LinkDownException e) {
            throw e;
        } catch (IOException e) {
            file.diskTrouble = true;
            file.trouble = Optional.of(DiskWords.of(file.file, e));
            file.retryNanos = nowNanos + DISK_RETRY_NANOS;
        }
        telling.troubles(trouble(true), trouble(false));
        return true;
    }

    private Optional<String> trouble(boolean ofDisk) {
        return arriving.stream()
                .filter(file -> file.trouble.isPresent() && file.diskTrouble == ofDisk)
                .findFirst()
                .flatMap(file -> file.trouble);
    }

    /** What comes first: what a file is, then small pictures, then files. */
    private Optional<Arriving> next(long nowNanos) {
        List<Arriving> due = arriving.stream().filter(file -> file.due(nowNanos)).toList();
        Optional<Arriving> unread =
                last(due.stream().filter(f -> !f.checked && !f.complete).toList());
        if (unread.isPresent()) {
            return unread;
        }
        Optional<Arriving> unseen = last(due.stream().filter(Arriving::wantsThumb).toList());
        if (unseen.isPresent()) {
            return unseen;
        }
        return due.stream()
                .min(
                        Comparator.comparing((Arriving file) -> file.received == 0)
                                .thenComparing(file -> !file.isJpeg()));
    }

    private static Optional<Arriving> last(List<Arriving> files) {
        return files.isEmpty() ? Optional.empty() : Optional.of(files.get(files.size() - 1));
    }

    private void readInfo(Arriving file) throws IOException, RefusedException {
        ObjectInfo info = session.objectInfo(file.handle);
        if (file.info == null) {
            if (!isPicture(info) || (file.maybeThere && isThere(info, file))) {
                arriving.remove(file);
                return;
            }
            takeAs(file, info);
        } else if (!Identity.of(info).equals(Identity.of(file.info))) {
            // it grew in the camera, or another has its handle now
            landing.drop(file.file);
            incoming.notComing(file.file);
            file.again();
            takeAs(file, info);
        } else {
            file.received = Math.min(file.received, landing.there(file.file));
        }
        file.checked = true;
    }

    private void takeAs(Arriving file, ObjectInfo info) throws IOException {
        file.info = info;
        file.wanted = SafeName.of(info.fileName(), file.handle, info.format());
        if (landing.holds(file.wanted, info.sizeOctets())) {
            // most likely it came before: its small picture would never be taken away again
            file.thumbDone();
        }
        file.file = landing.reserve(file.wanted);
        if (info.captureDate().compareTo(latestCapture) > 0) {
            latestCapture = info.captureDate();
        }
    }

    /** It came in an earlier run of the program. */
    private boolean isThere(ObjectInfo info, Arriving file) throws IOException {
        String name = SafeName.of(info.fileName(), file.handle, info.format());
        if (!landing.holds(name, info.sizeOctets())) {
            return false;
        }
        fetched.add(Identity.of(info));
        return true;
    }

    private static boolean isPicture(ObjectInfo info) {
        String name = info.fileName().toLowerCase(Locale.ROOT);
        return !info.isAssociation()
                && ObjectFormat.maybePicture(info.format())
                && !MOVIES.contains(name.substring(name.lastIndexOf('.') + 1));
    }

    private void thumb(Arriving file) throws LinkDownException, RefusedException {
        file.thumbTries++;
        if (!thumbs || (!file.isJpeg() && jpegOfTheSameShot(file))) {
            file.thumbDone();
            return;
        }
        try {
            byte[] jpeg = session.thumb(file.handle);
            file.thumbDone();
            if (jpeg.length > 2 && (jpeg[0] & 0xFF) == 0xFF && (jpeg[1] & 0xFF) == 0xD8) {
                incoming.early(file.file, jpeg);
            }
        } catch (RefusedException e) {
            if (e.is(ResponseCode.DEVICE_BUSY)) {
                throw e;
            }
            file.thumbDone();
        }
    }

    private boolean jpegOfTheSameShot(Arriving file) {
        String stem = SafeName.stem(file.wanted);
        return arriving.stream()
                .filter(other -> other.info != null && other != file && other.isJpeg())
                .anyMatch(other -> SafeName.stem(other.wanted).equals(stem));
    }

    private void bring(Arriving file) throws IOException, RefusedException {
        long size = file.info.sizeOctets();
        if (!file.complete) {
            if (parts && !file.onlyWhole && size > 0 && size < ObjectInfo.SIZE_TOO_LARGE) {
                bringPart(file, size);
            } else {
                bringWhole(file);
            }
        }
        if (file.complete) {
            Path whole = landing.finish(file.file, file.wanted);
            if (!whole.equals(file.file)) {
                incoming.notComing(file.file);
            }
            arriving.remove(file);
            fetched.add(Identity.of(file.info));
            incoming.whole(whole);
        }
    }

    private void bringPart(Arriving file, long size) throws IOException, RefusedException {
        int most = (int) Math.min(PART_OCTETS, size - file.received);
        byte[] octets = session.part(file.handle, file.received, most);
        if (octets.length == 0) {
            // shorter than the camera claims: its own count of the whole decides
            file.onlyWhole = true;
            file.again();
            return;
        }
        landing.write(file.file, file.received, octets);
        file.received += octets.length;
        file.complete = file.received == size;
    }

    private void bringWhole(Arriving file) throws IOException, RefusedException {
        file.again();
        session.object(
                file.handle,
                octets -> {
                    landing.write(file.file, file.received, octets);
                    file.received += octets.length;
                });
        if (file.received == 0) {
            throw new RefusedException("the file is empty so far");
        }
        file.complete = true;
    }

    private void refused(Arriving file, RefusedException why, long nowNanos) {
        if (why.is(ResponseCode.INVALID_OBJECT_HANDLE)) {
            // it was deleted in the camera before it had come
            arriving.remove(file);
            if (file.file != null) {
                landing.drop(file.file);
                incoming.notComing(file.file);
            }
            return;
        }
        if (!why.is(ResponseCode.DEVICE_BUSY) && file.checked && !file.wantsThumb()) {
            file.onlyWhole = true;
        }
        file.refusals++;
        file.retryNanos = nowNanos + patience.pauseNanos(file.refusals);
        if (file.refusals >= REFUSALS_TO_MENTION) {
            file.diskTrouble = false;
            file.trouble =
                    Optional.of(
                            (file.wanted == null ? "A new picture" : file.wanted)
                                    + " does not come yet: "
                                    + why.getMessage()
                                    + "; it is tried again by itself.");
        }
    }

    private List<Integer> handles(int storage) throws LinkDownException, RefusedException {
        try {
            return session.handles(storage);
        } catch (RefusedException e) {
            if (e.is(ResponseCode.STORE_NOT_AVAILABLE) || e.is(ResponseCode.INVALID_STORAGE_ID)) {
                return List.of();
            }
            throw e;
        }
    }

    /** A card that is put in: what is on it already is old. */
    private void noteStore(int storage) throws LinkDownException {
        try {
            known.addAll(handles(storage));
        } catch (RefusedException busy) {
            newStores.add(storage);
        }
    }

    /** Whatever is on the card and was not there at the last look is new. */
    private void look(long nowNanos) throws LinkDownException, RefusedException {
        List<Integer> handles = handles(Operation.ALL_STORAGES);
        boolean otherHandles =
                !known.isEmpty()
                        && !handles.isEmpty()
                        && handles.stream().noneMatch(known::contains);
        if (otherHandles) {
            known.clear();
            known.addAll(handles);
            lookThrough(handles, nowNanos);
            return;
        }
        for (int handle : handles) {
            if (!known.contains(handle)) {
                added(handle, nowNanos);
            }
        }
        known.clear();
        known.addAll(handles);
    }

    /** After the camera gave its files other handles, or got another card: by name and time. */
    private void lookThrough(List<Integer> handles, long nowNanos) throws LinkDownException {
        taken.clear();
        List<Arriving> lost = new ArrayList<>(arriving);
        List<Integer> fresh = new ArrayList<>();
        String before = latestCapture;
        int oldest = Math.max(0, handles.size() - MOST_LOOKED_THROUGH);
        for (int i = handles.size() - 1; i >= oldest; i--) {
            int handle = handles.get(i);
            ObjectInfo info;
            try {
                info = session.objectInfo(handle);
            } catch (RefusedException noInfo) {
                continue;
            }
            Identity identity = Identity.of(info);
            Optional<Arriving> same =
                    lost.stream()
                            .filter(f -> f.info != null && Identity.of(f.info).equals(identity))
                            .findFirst();
            if (same.isPresent()) {
                lost.remove(same.get());
                same.get().handle = handle;
                taken.add(handle);
            } else if (!before.isEmpty()
                    && info.captureDate().compareTo(before) >= 0
                    && !fetched.contains(identity)) {
                fresh.add(0, handle);
            }
        }
        for (Arriving gone : lost) {
            if (!gone.complete) {
                arriving.remove(gone);
                if (gone.file != null) {
                    landing.drop(gone.file);
                    incoming.notComing(gone.file);
                }
            }
        }
        fresh.forEach(handle -> added(handle, nowNanos));
    }
}
