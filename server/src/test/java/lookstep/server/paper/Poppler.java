package lookstep.server.paper;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The independent programs that read what we wrote: those of Poppler, and qpdf. */
final class Poppler {
    private static final Pattern PAGE =
            Pattern.compile("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\">");
    private static final Pattern WORD =
            Pattern.compile(
                    "<word xMin=\"(-?[\\d.]+)\" yMin=\"(-?[\\d.]+)\" xMax=\"(-?[\\d.]+)\""
                            + " yMax=\"(-?[\\d.]+)\">(.*)</word>");

    private Poppler() {}

    /** One word as it stands on a page, in points from the upper left corner. */
    record Word(double left, double top, double right, double bottom, String text) {}

    /** One page with its words. */
    record Page(double width, double height, List<Word> words) {}

    /** Everything that can be read, in the order of the pages; runs of spaces are one. */
    static String text(Path pdf) throws IOException, InterruptedException {
        return run("pdftotext", "-raw", "-enc", "UTF-8", pdf.toString(), "-")
                .replaceAll("\\s+", " ");
    }

    static List<Page> pages(Path pdf) throws IOException, InterruptedException {
        List<Page> pages = new ArrayList<>();
        for (String line :
                run("pdftotext", "-bbox", "-enc", "UTF-8", pdf.toString(), "-").lines().toList()) {
            Matcher page = PAGE.matcher(line);
            Matcher word = WORD.matcher(line);
            if (page.find()) {
                pages.add(new Page(number(page, 1), number(page, 2), new ArrayList<>()));
            } else if (word.find()) {
                pages.get(pages.size() - 1)
                        .words()
                        .add(
                                new Word(
                                        number(word, 1),
                                        number(word, 2),
                                        number(word, 3),
                                        number(word, 4),
                                        word.group(5)));
            }
        }
        return pages;
    }

    private static double number(Matcher matcher, int group) {
        return Double.parseDouble(matcher.group(group));
    }

    /** The fonts' lines: name, type, encoding, embedded, subset, to Unicode. */
    static List<String> fonts(Path pdf) throws IOException, InterruptedException {
        return run("pdffonts", pdf.toString()).lines().skip(2).toList();
    }

    /** Fails if the structure is not as ISO 32000 has it. */
    static void isSound(Path pdf) throws IOException, InterruptedException {
        run("qpdf", "--check", pdf.toString());
    }

    /** What it prints; anything but a good end without a word of complaint fails. */
    private static String run(String... command) throws IOException, InterruptedException {
        Process process;
        try {
            process = new ProcessBuilder(command).redirectErrorStream(true).start();
        } catch (IOException e) {
            return fail(command[0] + " is missing: apt-get install poppler-utils qpdf", e);
        }
        String printed =
                new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (process.waitFor() != 0 || printed.contains("Syntax Error")) {
            fail(String.join(" ", command) + ": " + printed);
        }
        return printed;
    }
}
