package lookstep.server.disk;

import java.nio.file.Path;

/** The names that a file may get when its own is taken: {@code LS_0001 (2).JPG} and so on. */
public final class FreeName {
    private FreeName() {}

    /**
     * The n-th name to try.
     *
     * @param wanted the file's own name
     * @param n 1 for its own
     */
    public static Path nth(Path wanted, int n) {
        return n == 1 ? wanted : wanted.resolveSibling(nth(name(wanted), n));
    }

    /** The same for a name alone. */
    public static String nth(String wanted, int n) {
        if (n == 1) {
            return wanted;
        }
        int dot = wanted.lastIndexOf('.');
        int stem = dot > 0 ? dot : wanted.length();
        return wanted.substring(0, stem) + " (" + n + ")" + wanted.substring(stem);
    }

    /** Under what a file lies until it is whole: {@code .LS_0001.JPG.part}. */
    public static Path part(Path whole) {
        return whole.resolveSibling("." + name(whole) + ".part");
    }

    private static String name(Path path) {
        return String.valueOf(path.getFileName());
    }
}
