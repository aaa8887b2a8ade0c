package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.Optional;
import lookstep.server.intake.FramePictures;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Frame;
import lookstep.server.live.Frame.Mark;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.live.ShotFacts;
import lookstep.server.live.Showing;
import lookstep.server.plan.Shot;

/** What presses about frames mean. */
final class FramePresses {
    private final Live live;
    private final FramePictures pictures;
    private final Lightings lightings;

    FramePresses(Live live, FramePictures pictures, Lightings lightings) {
        this.live = live;
        this.pictures = pictures;
        this.lightings = lightings;
    }

    /** Carries a press out. */
    interface Press {
        void make() throws IOException, NotPossible;
    }

    /**
     * {@code {"number": 12, "do": "keep"}}, {@code out}, {@code unmark}, or {@code {"number": 12,
     * "do": "belongs", "shot": "rim-only"}}; an empty shot is none.
     *
     * @return empty if it is none of these
     */
    Optional<Press> frame(JsonNode body) {
        if (!body.path("number").isInt()) {
            return Optional.empty();
        }
        int number = body.path("number").intValue();
        return switch (body.path("do").asText()) {
            case "keep" -> Optional.of(() -> live.mark(number, Mark.KEPT));
            case "out" -> Optional.of(() -> live.mark(number, Mark.OUT));
            case "unmark" -> Optional.of(() -> live.mark(number, Mark.NONE));
            case "belongs" -> Optional.of(() -> belongs(number, body.path("shot").asText()));
            default -> Optional.empty();
        };
    }

    /** {@code {"show": "all"}}, {@code kept}, {@code hold}; empty if it is none of these. */
    Optional<Press> show(JsonNode body) {
        return switch (body.path("show").asText()) {
            case "all" -> Optional.of(() -> show(Showing.Mode.ALL));
            case "kept" -> Optional.of(() -> show(Showing.Mode.KEPT));
            case "hold" -> Optional.of(() -> show(Showing.Mode.HOLD));
            default -> Optional.empty();
        };
    }

    private void show(Showing.Mode mode) throws IOException {
        live.show(mode, pictures.forBand(live.state()).map(Frame::number).orElse(0));
    }

    private void belongs(int number, String id) throws IOException, NotPossible {
        if (id.isEmpty()) {
            live.frameBelongs(number, "", ShotFacts.NONE);
            return;
        }
        Shot shot =
                lightings
                        .shot(live.state(), id)
                        .orElseThrow(
                                () ->
                                        new NotPossible(
                                                "there is no shot '" + id + "'; reload the page"));
        live.frameBelongs(number, id, ShotFacts.of(shot));
    }
}
