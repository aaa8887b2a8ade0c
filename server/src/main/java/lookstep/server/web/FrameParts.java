package lookstep.server.web;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import lookstep.server.live.CameraClock;
import lookstep.server.live.Event.FrameChecked;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.web.CrewMessage.BandPart;
import lookstep.server.web.CrewMessage.CameraClockPart;
import lookstep.server.web.CrewMessage.FramePart;
import lookstep.server.web.CrewMessage.RemarkPart;

/** Frames in the words of the pages. Pure. */
public final class FrameParts {
    /** As many as are looked through on the set; all are in the journal. */
    private static final int NEWEST = 24;

    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

    private final ZoneId zone;
    private final boolean copies;

    /**
     * @param zone of this computer
     * @param copies whether originals are copied to a second place
     */
    public FrameParts(ZoneId zone, boolean copies) {
        this.zone = zone;
        this.copies = copies;
    }

    /** All, the newest first. */
    List<FramePart> all(
            List<Frame> frames,
            Function<Frame, String> url,
            CameraClock.All clocks,
            Map<Integer, String> copying) {
        return parts(frames, frames.size(), url, clocks, copying);
    }

    /** The newest ones, the newest first. */
    List<FramePart> newest(
            List<Frame> frames,
            Function<Frame, String> url,
            CameraClock.All clocks,
            Map<Integer, String> copying) {
        return parts(frames, NEWEST, url, clocks, copying);
    }

    private List<FramePart> parts(
            List<Frame> frames,
            int most,
            Function<Frame, String> url,
            CameraClock.All clocks,
            Map<Integer, String> copying) {
        List<FramePart> parts = new ArrayList<>();
        for (int i = frames.size() - 1; i >= Math.max(0, frames.size() - most); i--) {
            parts.add(part(frames.get(i), url, clocks, copying));
        }
        return parts;
    }

    /** One frame. */
    FramePart part(
            Frame frame,
            Function<Frame, String> url,
            CameraClock.All clocks,
            Map<Integer, String> copying) {
        Instant exposed = Instant.ofEpochMilli(clocks.exposedEpochMillis(frame));
        boolean safe = frame.copies().size() == frame.files().size();
        return new FramePart(
                frame.number(),
                url.apply(frame),
                frame.shot().isEmpty() ? null : frame.shot(),
                frame.byHand(),
                frame.people(),
                TIME.format(exposed.atZone(zone)),
                frame.ofPlates() ? "plate, " + frame.says() : frame.says(),
                frame.mark().name().toLowerCase(Locale.ROOT),
                frame.files().size() > 1,
                remarks(frame.checked()),
                copies ? copyWords(frame, safe, copying) : "",
                safe);
    }

    private static String copyWords(Frame frame, boolean safe, Map<Integer, String> copying) {
        return safe ? "copied" : copying.getOrDefault(frame.number(), "not copied yet");
    }

    private static List<RemarkPart> remarks(Optional<FrameChecked> checked) {
        return checked.map(FrameChecked::remarks).orElse(List.of()).stream()
                .map(r -> new RemarkPart(r.weight(), r.says()))
                .toList();
    }

    static BandPart band(LiveState state, Optional<Frame> seen) {
        return new BandPart(
                state.showing().mode().name().toLowerCase(Locale.ROOT),
                seen.map(Frame::number).orElse(0));
    }

    /** What each camera's clock is off by: hours are usual, and no harm. */
    List<CameraClockPart> clocks(CameraClock.All clocks, long nowEpochMillis) {
        long zoneMillis =
                zone.getRules().getOffset(Instant.ofEpochMilli(nowEpochMillis)).getTotalSeconds()
                        * 1000L;
        return clocks.now().values().stream()
                .map(
                        c ->
                                new CameraClockPart(
                                        c.camera().isEmpty() ? "camera" : c.camera(),
                                        words(c.aheadMillis(zoneMillis))
                                                + " (from %d %s)"
                                                        .formatted(
                                                                c.frames(),
                                                                c.frames() == 1
                                                                        ? "frame"
                                                                        : "frames")))
                .toList();
    }

    static String words(long aheadMillis) {
        long seconds = Math.round(Math.abs(aheadMillis) / 1000.0);
        String by =
                seconds >= 3600
                        ? "%d h %d min".formatted(seconds / 3600, seconds % 3600 / 60)
                        : seconds >= 60
                                ? "%d min %d s".formatted(seconds / 60, seconds % 60)
                                : seconds + " s";
        if (seconds < 2) {
            return "its clock agrees with this computer's";
        }
        return "its clock is %s %s this computer's; frames are put right by it"
                .formatted(by, aheadMillis > 0 ? "ahead of" : "behind");
    }
}
