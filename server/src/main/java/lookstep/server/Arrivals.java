package lookstep.server;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.BareJpeg;
import lookstep.protocols.image.JpegInfo;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.gear.WayIn;
import lookstep.server.intake.FrameIntake;
import lookstep.server.live.Link;
import lookstep.server.live.Links;

/**
 * What one way in says, brought to where it belongs.
 *
 * @param name of the way
 * @param folder the frames folder
 */
record Arrivals(String name, Path folder, FrameIntake intake, Links links)
        implements WayIn.Incoming {
    @Override
    public void whole(Path file) {
        intake.whole(file);
    }

    @Override
    public void early(Path file, byte[] jpeg) {
        // where it was taken, and by which body, is nothing for the band
        Optional<byte[]> bare = BareJpeg.of(jpeg, 1, List.of());
        Optional<JpegInfo> size = JpegInfo.read(jpeg);
        if (bare.isPresent() && size.isPresent()) {
            intake.pictures()
                    .early(file, new Preview(bare.get(), size.get().width(), size.get().height()));
        }
    }

    @Override
    public void notComing(Path file) {
        intake.pictures().notComing(file);
    }

    @Override
    public void tell(boolean up, String says) {
        if (!up) {
            intake.pictures().forgetEarly();
        }
        links.tell(new Link(name, up, says));
    }
}
