package lookstep.server;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.function.IntFunction;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.server.look.Fade;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.LookPlayer;
import lookstep.server.output.PacketSource;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;

/**
 * What it takes to make slots of a look and of a fade: 64 lights of 8 slots each, so that all 512
 * of a universe are used. A part of {@code server/bench}.
 */
final class SlotsBench {
    private static final int LIGHTS = 64;
    private static final int LOOKS = 2000;

    /** ANSI E1.11: 512 slots go at most 44.1 times a second. */
    private static final double PACKETS_PER_SECOND = 44;

    private static final long PERIOD_NANOS = Math.round(1e9 / PACKETS_PER_SECOND);
    private static final int PACED_PACKETS = (int) (10 * PACKETS_PER_SECOND);
    private static final int HOT_PACKETS = 20_000;
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private final ShootPlan plan = plan();

    /** Where results go, so that no compiler leaves the work out. */
    @SuppressWarnings("UnusedVariable")
    private volatile Object made;

    static void run() throws InterruptedException {
        SlotsBench bench = new SlotsBench();
        // The fade comes first: a shoot's first fade meets code that has hardly run as well.
        bench.fade();
        bench.lookToSlots();
    }

    private static ShootPlan plan() {
        RandomRigs any = new RandomRigs(1);
        Mode mode = GenericFixtures.RGBW.mode("16-bit").orElseThrow();
        List<Light> rig = new ArrayList<>();
        for (int i = 0; i < LIGHTS; i++) {
            rig.add(
                    any.light(
                            "light " + i,
                            GenericFixtures.RGBW,
                            mode,
                            1,
                            1 + i * DmxPacket.SLOTS / LIGHTS));
        }
        return RandomRigs.withRig(rig);
    }

    /** Every light on, each at a level and colour of its own. */
    private Look look(String name, double fromKelvin, double toKelvin) {
        Map<String, Setting> lights = new LinkedHashMap<>();
        for (int i = 0; i < LIGHTS; i++) {
            double part = i / (LIGHTS - 1.0);
            Level level =
                    i % 2 == 0
                            ? new Level.Percent(20 + 80 * part)
                            : new Level.StopsFromKey(-1 - 2 * part);
            lights.put(
                    plan.rig().get(i).name(),
                    new Setting(
                            level,
                            new Colour.Temperature(fromKelvin + part * (toKelvin - fromKelvin))));
        }
        CameraSettings camera = new CameraSettings(8, 1 / 125.0, 3200, 4300);
        return new Look(name, camera, 1, plan.rig().get(0).name(), lights);
    }

    private void lookToSlots() {
        Look look = look("bench", 2700, 6500);
        System.out.printf("%nlook to slots, %d lights, %d slots%n", LIGHTS, DmxPacket.SLOTS);
        long[] worked = times(i -> RigPackets.packet(plan, LookLevels.of(plan, look).levels(), 1));
        long[] plain = times(SlotsBench::plainLoop);
        row("levels worked out, and the packet", worked);
        row("a plain loop that writes 512 bytes", plain);
        System.out.printf(
                Locale.ROOT,
                "  %-52s %.0f%n",
                "ratio of the medians",
                (double) worked[worked.length / 2] / Math.max(1, plain[plain.length / 2]));
    }

    private static Object plainLoop(int seed) {
        byte[] slots = new byte[DmxPacket.SLOTS];
        for (int i = 0; i < slots.length; i++) {
            slots[i] = (byte) (i * seed);
        }
        return slots;
    }

    /** Sorted; the first half of the calls warms up and does not count. */
    private long[] times(IntFunction<Object> work) {
        long[] nanos = new long[LOOKS];
        for (int i = -LOOKS; i < LOOKS; i++) {
            long began = System.nanoTime();
            made = work.apply(i);
            if (i >= 0) {
                nanos[i] = System.nanoTime() - began;
            }
        }
        Arrays.sort(nanos);
        return nanos;
    }

    /**
     * The thread's own time on a processor for each packet of a fade, without the wait for the
     * next: at the pace of the line, as a shoot does it, and one after the other.
     */
    private void fade() throws InterruptedException {
        System.out.printf(
                Locale.ROOT,
                "%na fade of %d slots at %.0f packets a second: time on a processor%n",
                DmxPacket.SLOTS,
                PACKETS_PER_SECOND);
        RigLevels warm = LookLevels.of(plan, look("warm", 2700, 3200)).levels();
        RigLevels cold = LookLevels.of(plan, look("cold", 6500, 5000)).levels();
        cpuRow("at the pace of the line, from the first packet on", paced(fading(warm, cold)));
        cpuRow("one after the other", hot(fading(warm, cold)));
        cpuRow("a plain loop that writes 512 bytes, likewise", hot(SlotsBench::plainPacket));
    }

    private PacketSource fading(RigLevels from, RigLevels to) {
        LookPlayer player = new LookPlayer(from, new Fade(plan), PERIOD_NANOS);
        // Long enough never to end: each packet is one of a fade.
        player.go(to, 3600.0);
        return now -> RigPackets.packet(plan, player.at(now).levels(), 1);
    }

    private static DmxPacket plainPacket(long nowNanos) {
        byte[] slots = new byte[DmxPacket.SLOTS];
        for (int i = 0; i < slots.length; i++) {
            slots[i] = (byte) (i * nowNanos);
        }
        return DmxPacket.ofSlots(slots);
    }

    private long[] paced(PacketSource source) throws InterruptedException {
        long[] cpu = new long[PACED_PACKETS];
        CountDownLatch done = new CountDownLatch(PACED_PACKETS);
        LoopThread loop =
                LoopThread.start(
                        "fade",
                        now -> {
                            int i = PACED_PACKETS - (int) done.getCount();
                            if (i < PACED_PACKETS) {
                                cpu[i] = one(source, now);
                                done.countDown();
                            }
                            return now + PERIOD_NANOS;
                        });
        done.await();
        loop.close();
        Arrays.sort(cpu);
        return cpu;
    }

    private long[] hot(PacketSource source) {
        long[] cpu = new long[HOT_PACKETS];
        for (int i = -HOT_PACKETS; i < HOT_PACKETS; i++) {
            long took = one(source, (long) (i + HOT_PACKETS) * PERIOD_NANOS);
            if (i >= 0) {
                cpu[i] = took;
            }
        }
        Arrays.sort(cpu);
        return cpu;
    }

    private long one(PacketSource source, long now) {
        long before = THREADS.getCurrentThreadCpuTime();
        made = source.packet(now);
        return THREADS.getCurrentThreadCpuTime() - before;
    }

    private static void row(String what, long[] sorted) {
        int n = sorted.length;
        System.out.printf(
                Locale.ROOT,
                "  %-52s n %5d  least %.1f  p50 %.1f  p99 %.1f  max %.1f us%n",
                what,
                n,
                sorted[0] / 1e3,
                sorted[n / 2] / 1e3,
                sorted[n * 99 / 100] / 1e3,
                sorted[n - 1] / 1e3);
    }

    private static void cpuRow(String what, long[] sorted) {
        double sum = 0;
        for (long nanos : sorted) {
            sum += nanos;
        }
        row(what, sorted);
        System.out.printf(
                Locale.ROOT,
                "  %-52s %.3f %% of a core%n",
                "  mean x 44",
                sum / sorted.length * PACKETS_PER_SECOND / 1e9 * 100);
    }

    public static void main(String[] args) throws InterruptedException {
        run();
    }
}
