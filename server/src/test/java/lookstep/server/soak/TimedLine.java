package lookstep.server.soak;

import lookstep.protocols.wire.Line;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.LinePort;

/**
 * A line that is passed through, with a beat at each break that is asked for. A line that is lost
 * and found again leaves a gap.
 */
public record TimedLine(LinePort port, Beats beats) implements LinePort {
    @Override
    public String name() {
        return port.name();
    }

    @Override
    public Line open() throws LineLostException {
        Line line = port.open();
        return new Line() {
            @Override
            public void startBreak() throws LineLostException {
                beats.beat(System.nanoTime());
                line.startBreak();
            }

            @Override
            public void endBreak() throws LineLostException {
                line.endBreak();
            }

            @Override
            public void write(byte[] startCodeAndSlots) throws LineLostException {
                line.write(startCodeAndSlots);
            }

            @Override
            public void close() {
                line.close();
            }
        };
    }
}
