package lookstep.simulator.gear;

import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.wire.MemoryDatagrams;
import lookstep.protocols.wire.MemoryLine;

/** What can go wrong at the other end, by name: for tests, and to rehearse for it. */
public sealed interface Fault {
    /** Something wrong on the way to the lights. */
    sealed interface OfLine extends Fault {
        /** Makes it happen to a line in memory. */
        void strike(MemoryLine line);

        /** Puts it right again. */
        void mend(MemoryLine line);
    }

    /** Something wrong with the network that leads to the lights. */
    sealed interface OfNetwork extends Fault {
        /** Makes it happen to a network in memory. */
        void strike(MemoryDatagrams network);

        /** Puts it right again. */
        void mend(MemoryDatagrams network);
    }

    /** Something wrong between the camera and the folder. */
    sealed interface OfCamera extends Fault {}

    /** The adapter is pulled out. */
    record Unplugged() implements OfLine {
        @Override
        public void strike(MemoryLine line) {
            line.unplug();
        }

        @Override
        public void mend(MemoryLine line) {
            line.plug();
        }
    }

    /** The adapter is there but takes no more bytes, so that a write does not return. */
    record Stuck() implements OfLine {
        @Override
        public void strike(MemoryLine line) {
            line.setStuck(true);
        }

        @Override
        public void mend(MemoryLine line) {
            line.setStuck(false);
        }
    }

    /** The adapter takes only half of each packet, and is lost. */
    record ShortWrite() implements OfLine {
        @Override
        public void strike(MemoryLine line) {
            line.setShortWrites(true);
        }

        @Override
        public void mend(MemoryLine line) {
            line.setShortWrites(false);
        }
    }

    /** The network interface goes away: its cable is pulled, or its adapter. */
    record NetworkGone() implements OfNetwork {
        @Override
        public void strike(MemoryDatagrams network) {
            network.unplug();
        }

        @Override
        public void mend(MemoryDatagrams network) {
            network.plug();
        }
    }

    /** The network takes nothing for the moment, so that datagrams are let go. */
    record NetworkFull() implements OfNetwork {
        @Override
        public void strike(MemoryDatagrams network) {
            network.setFull(true);
        }

        @Override
        public void mend(MemoryDatagrams network) {
            network.setFull(false);
        }
    }

    /**
     * Datagrams are lost on their way to the lights, as over a bad radio link.
     *
     * @param oneIn of so many one is lost, 1 or more
     */
    record LostDatagrams(int oneIn) implements Fault {
        public LostDatagrams {
            if (oneIn < 1) {
                throw new IllegalArgumentException("one datagram in " + oneIn + " is lost");
            }
        }
    }

    /**
     * The next picture stops on its way: the battery is out, or the cable.
     *
     * @param part of the file that is written, 0 up to but not including 1
     */
    record HalfFile(double part) implements OfCamera {
        public HalfFile {
            if (!(part >= 0 && part < 1)) {
                throw new IllegalArgumentException("part of a file: " + part);
            }
        }
    }

    /**
     * The camera has gone to sleep: it takes no picture for the next so many releases.
     *
     * @param triggers releases that do nothing
     */
    record CameraAsleep(int triggers) implements OfCamera {
        public CameraAsleep {
            if (triggers < 1) {
                throw new IllegalArgumentException(triggers + " releases that do nothing");
            }
        }
    }

    /**
     * The camera sleeps with its network on: it answers nothing, tells of nothing, and when it
     * wakes it knows of no connection any more.
     */
    record CameraSilent() implements OfCamera {}

    /** The camera is taken by another computer: it lets none in. */
    record CameraTaken() implements OfCamera {}

    /**
     * The camera has its hands full, and says so to the next so many requests.
     *
     * @param requests that it does not do
     */
    record CameraBusy(int requests) implements OfCamera {
        public CameraBusy {
            if (requests < 1) {
                throw new IllegalArgumentException(requests + " requests that are not done");
            }
        }
    }

    /**
     * The camera does not let itself be set, such as when a dial is on automatic.
     *
     * @param setting that it keeps as it is
     */
    record SettingRefused(DeviceProperty setting) implements OfCamera {}

    /**
     * The camera does not have this setting, as far as the network goes.
     *
     * @param setting that it does not name
     */
    record SettingMissing(DeviceProperty setting) implements OfCamera {}

    /**
     * Pictures come through a bad link: in small pieces with a pause after each, until mended.
     *
     * @param pieceBytes bytes in a piece
     * @param pauseNanos pause after each piece
     */
    record SlowWriter(int pieceBytes, long pauseNanos) implements OfCamera {
        public SlowWriter {
            if (pieceBytes < 1 || pauseNanos < 0) {
                throw new IllegalArgumentException(
                        "pieces of " + pieceBytes + " bytes, pause " + pauseNanos + " ns");
            }
        }
    }

    /** The next file is whole in length, but its bytes are no picture. */
    record Garbled() implements OfCamera {}
}
