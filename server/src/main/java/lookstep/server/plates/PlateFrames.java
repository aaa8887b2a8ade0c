package lookstep.server.plates;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;
import lookstep.protocols.image.ExifReader;
import lookstep.server.frames.PreviewResult;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.ShownPixels;
import lookstep.server.live.Frame;
import lookstep.simulator.model.plates.CodedPicture;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The working pixels of a frame: its preview, made on the thread that asks, so that a frame is read
 * the same way now and after a restart.
 */
public final class PlateFrames {
    private static final Logger LOG = LoggerFactory.getLogger(PlateFrames.class);

    private final Function<Frame, Path> originals;
    private final Function<Path, PreviewResult> previews;

    /**
     * @param originals where the picture of a frame is made from
     * @param previews how: to a size that a tablet shows
     */
    public PlateFrames(Function<Frame, Path> originals, Function<Path, PreviewResult> previews) {
        this.originals = originals;
        this.previews = previews;
    }

    /** Empty if it cannot be read, now or at all. */
    public Optional<SeenPlate> of(Frame frame) {
        Path original = originals.apply(frame);
        try (SeekableByteChannel channel = Files.newByteChannel(original)) {
            if (!(previews.apply(original) instanceof Preview preview)) {
                return Optional.empty();
            }
            return Optional.of(
                    new SeenPlate(
                            frame.number(),
                            CodedPicture.of(ShownPixels.of(preview)),
                            ExifReader.read(channel).data()));
        } catch (IOException unreadable) {
            LOG.warn("frame {} as a plate: {}", frame.number(), unreadable.toString());
            return Optional.empty();
        }
    }
}
