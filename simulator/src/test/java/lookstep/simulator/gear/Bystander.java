package lookstep.simulator.gear;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.locks.LockSupport;

/** A process for tests of what happens when a process ends, or leads its session. */
final class Bystander {
    private Bystander() {}

    /** {@code own FOLDER}: holds a pair until killed; {@code listen NODE}: until the node goes. */
    public static void main(String[] args) throws IOException {
        if (args[0].equals("own")) {
            SocatPair.start(Path.of(args[1]));
            LockSupport.park(Bystander.class);
            while (true) {
                LockSupport.parkNanos(1_000_000_000);
            }
        }
        PtyFarEnd end = new PtyFarEnd(Path.of(args[1]), LightListener.byLength(List.of()));
        while (!end.connected()) {
            end.doWork(System.nanoTime());
            LockSupport.parkNanos(1_000_000);
        }
        Files.createFile(Path.of(args[1] + ".connected"));
        while (end.connected()) {
            end.doWork(System.nanoTime());
            LockSupport.parkNanos(1_000_000);
        }
        // A signal that comes with the loss would strike about now.
        LockSupport.parkNanos(300_000_000);
        System.out.print("survived\n");
    }
}
