package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.BufferedReader;
import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Scanner;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The serial line over a pair of pseudo-terminals; socat holds them together. */
class SerialLineTest extends LineContract {
    @TempDir Path dir;

    @Override
    Bench newBench() throws Exception {
        return new Pair(dir.resolve("near"), dir.resolve("far"));
    }

    private static final class Pair implements Bench {
        private final Path near;
        private final Path far;
        private Process socat;
        private BlockingQueue<Byte> heard;

        Pair(Path near, Path far) throws Exception {
            this.near = near;
            this.far = far;
            plug();
        }

        @Override
        public LinePort port() {
            return new SerialLinePort(near.toString());
        }

        @Override
        public void plug() throws Exception {
            try {
                socat =
                        new ProcessBuilder("socat", pty(near), pty(far))
                                .redirectErrorStream(true)
                                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                                .start();
            } catch (IOException e) {
                fail("socat is missing: apt-get install socat", e);
            }
            awaitUntil(() -> Files.exists(near) && Files.exists(far), "socat makes its links");
            BlockingQueue<Byte> queue = new LinkedBlockingQueue<>();
            heard = queue;
            Thread reader = new Thread(() -> listen(queue), "far end");
            reader.setDaemon(true);
            reader.start();
        }

        private static String pty(Path link) {
            return "pty,raw,echo=0,link=" + link;
        }

        private void listen(BlockingQueue<Byte> queue) {
            try (InputStream in = new FileInputStream(far.toFile())) {
                byte[] buffer = new byte[1024];
                for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                    for (int i = 0; i < n; i++) {
                        queue.add(buffer[i]);
                    }
                }
            } catch (IOException e) {
                // the pair is gone: nothing more will be heard, and the test sees that
                queue.clear();
            }
        }

        @Override
        public byte[] received(int count) throws Exception {
            byte[] octets = new byte[count];
            for (int i = 0; i < count; i++) {
                Byte octet = heard.poll(DEADLINE_SECONDS, TimeUnit.SECONDS);
                if (octet == null) {
                    return fail("only " + i + " of " + count + " octets arrived");
                }
                octets[i] = octet;
            }
            return octets;
        }

        @Override
        public void unplug() throws Exception {
            socat.destroyForcibly();
            assertTrue(socat.waitFor(DEADLINE_SECONDS, TimeUnit.SECONDS));
            // socat had no time to do so itself
            Files.deleteIfExists(near);
            Files.deleteIfExists(far);
        }

        @Override
        public void stick() throws Exception {
            Process stop =
                    new ProcessBuilder("sh", "-c", "kill -STOP " + socat.pid()).inheritIO().start();
            assertEquals(0, stop.waitFor());
        }

        @Override
        public void end() throws Exception {
            unplug();
        }
    }

    private interface Condition {
        boolean holds() throws Exception;
    }

    private static void awaitUntil(Condition condition, String what) throws Exception {
        long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(DEADLINE_SECONDS);
        while (!condition.holds()) {
            assertTrue(System.nanoTime() - deadline < 0, "waited in vain: " + what);
            TimeUnit.MILLISECONDS.sleep(5);
        }
    }

    /**
     * Prints the name of a new pseudo-terminal; then, for each line it is given, the line
     * parameters that its user has set (Linux, struct termios2): control flags, input speed, output
     * speed.
     */
    private static final String PARAMETERS =
            """
            use strict; use Fcntl; $| = 1;
            sysopen(my $m, '/dev/ptmx', O_RDWR | O_NOCTTY) or die "ptmx: $!";
            my $no = pack('i', 0);
            ioctl($m, 0x40045431, $no) or die "TIOCSPTLCK: $!";
            my $n = pack('i', 0);
            ioctl($m, 0x80045430, $n) or die "TIOCGPTN: $!";
            print '/dev/pts/', unpack('i', $n), "\\n";
            while (<STDIN>) {
                my $t = "\\0" x 44;
                ioctl($m, 0x802C542A, $t) or die "TCGETS2: $!";
                my (undef, undef, $c, undef, undef, undef, $in, $out) = unpack('LLLLCa19LL', $t);
                print "$c $in $out\\n";
            }
            """;

    /** ANSI E1.11: 250 kbit/s, 8 data bits, 2 stop bits, no parity. */
    @Test
    void lineParametersAreThoseOfTheStandard() throws Exception {
        Process perl =
                new ProcessBuilder("perl", "-e", PARAMETERS)
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        try (BufferedReader out = perl.inputReader(StandardCharsets.US_ASCII)) {
            String device = out.readLine();
            int before = ask(perl, out)[1];
            assertTrue(before != 250_000, "it was at that speed before");
            try (Line line = new SerialLinePort(device).open()) {
                line.startBreak();
                line.endBreak();
                int[] found = ask(perl, out);
                int flags = found[0];
                assertEquals(250_000, found[1], "input speed");
                assertEquals(250_000, found[2], "output speed");
                // octal, from Linux's asm-generic/termbits.h
                assertEquals(060, flags & 060, "CSIZE: CS8");
                assertEquals(0100, flags & 0100, "CSTOPB: two stop bits");
                assertEquals(0, flags & 0400, "PARENB: no parity");
                assertEquals(0, flags & 020000000000, "CRTSCTS: no flow control");
            }
        } finally {
            perl.destroyForcibly();
        }
    }

    private static int[] ask(Process perl, BufferedReader out) throws IOException {
        perl.getOutputStream().write('\n');
        perl.getOutputStream().flush();
        Scanner words = new Scanner(out.readLine());
        return new int[] {(int) words.nextLong(), words.nextInt(), words.nextInt()};
    }

    @Test
    void fileThatIsNoDeviceIsRefused() throws Exception {
        Path file = Files.writeString(dir.resolve("file"), "words");
        LineLostException lost =
                assertThrows(
                        LineLostException.class,
                        () -> new SerialLinePort(file.toString()).open().close());
        assertEquals(file + ": this is no serial device. Choose another line.", lost.getMessage());
        assertEquals("words", Files.readString(file));
    }

    @Test
    void nameThatNothingHasIsRefused() {
        LineLostException lost =
                assertThrows(
                        LineLostException.class,
                        () -> new SerialLinePort("/dev/no-such-line").open().close());
        assertEquals(
                "/dev/no-such-line: no adapter is there. Plug it in, or choose another line.",
                lost.getMessage());
    }
}
