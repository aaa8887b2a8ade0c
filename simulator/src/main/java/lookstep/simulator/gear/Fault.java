package lookstep.simulator.gear;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.wire.MemoryDatagrams;
import lookstep.protocols.wire.MemoryLine;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

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

    /** Something that is otherwise on the set, and nobody said so. Lasts until mended. */
    sealed interface OfSet extends Fault {
        /** What is before the camera then. */
        View seen(View planned);

        /** What the lights give then. */
        LightSnapshot lit(LightSnapshot planned);
    }

    /**
     * Somebody has run into the tripod.
     *
     * @param by how far the camera has moved
     * @param aim how far the point has moved that it looks at
     */
    record CameraMoved(Vec3 by, Vec3 aim) implements OfSet {
        @Override
        public View seen(View v) {
            Camera c = v.camera();
            Camera moved =
                    new Camera(
                            c.position().plus(by),
                            c.target().plus(aim),
                            c.focalMillimetres(),
                            c.fNumber(),
                            c.seconds(),
                            c.iso(),
                            c.whiteBalanceKelvin(),
                            c.sensorLongMillimetres(),
                            c.sensorShortMillimetres(),
                            c.focusMetres());
            return new View(v.scene(), v.lightNames(), v.houseWhite(), moved);
        }

        @Override
        public LightSnapshot lit(LightSnapshot planned) {
            return planned;
        }
    }

    /** Two lights have each other's address: each gives what the other is asked for. */
    record LightsSwapped(String one, String other) implements OfSet {
        @Override
        public View seen(View planned) {
            return planned;
        }

        @Override
        public LightSnapshot lit(LightSnapshot planned) {
            Map<String, Xyz> swapped = new LinkedHashMap<>(planned.intensities());
            swapped.put(one, planned.intensities().get(other));
            swapped.put(other, planned.intensities().get(one));
            return new LightSnapshot(swapped, planned.packets());
        }
    }

    /**
     * A stand was moved.
     *
     * @param light its name
     * @param by how far the light and the point it looks at have moved
     */
    record LightMoved(String light, Vec3 by) implements OfSet {
        @Override
        public View seen(View v) {
            int which = v.lightNames().indexOf(light);
            if (which < 0) {
                throw new IllegalArgumentException("there is no light '" + light + "'");
            }
            Scene scene = v.scene();
            List<Luminaire> lights = new ArrayList<>(scene.luminaires());
            Luminaire was = lights.get(which);
            lights.set(
                    which,
                    new Luminaire(
                            was.position().plus(by),
                            was.aim().plus(by),
                            was.beamDegrees(),
                            was.sizeMetres()));
            return new View(
                    new Scene(scene.figures(), scene.room(), lights, scene.houseLux()),
                    v.lightNames(),
                    v.houseWhite(),
                    v.camera());
        }

        @Override
        public LightSnapshot lit(LightSnapshot planned) {
            return planned;
        }
    }

    /**
     * Somebody has opened a curtain, or switched a lamp off.
     *
     * @param times so much of the house light as before, 0 or more
     */
    record HouseChanged(double times) implements OfSet {
        public HouseChanged {
            if (!(times >= 0)) {
                throw new IllegalArgumentException("house light times " + times);
            }
        }

        @Override
        public View seen(View v) {
            return new View(v.scene(), v.lightNames(), v.houseWhite().times(times), v.camera());
        }

        @Override
        public LightSnapshot lit(LightSnapshot planned) {
            return planned;
        }
    }

    /**
     * The camera releases before the light has changed: its next picture shows the light of the one
     * before.
     */
    record DoubledFrame() implements OfCamera {}

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
