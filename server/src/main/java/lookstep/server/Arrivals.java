package lookstep.server;

import java.nio.file.Path;
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
        JpegInfo.read(jpeg)
                .ifPresent(
                        size ->
                                intake.pictures()
                                        .early(
                                                file,
                                                new Preview(jpeg, size.width(), size.height())));
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
