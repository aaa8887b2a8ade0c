package lookstep.server.framecheck;

import java.util.List;

/**
 * What there is to say of one frame.
 *
 * @param remarks the gravest first, at most one of each kind; may be empty
 * @param fingerprint of the picture, to compare later ones with
 */
public record FrameReport(List<Remark> remarks, Fingerprint fingerprint) {
    public FrameReport {
        remarks = List.copyOf(remarks);
    }
}
