package lookstep.server.paper;

import java.util.ArrayList;
import java.util.List;

/** Names cut short so that they still differ. */
final class ShortNames {
    private static final int LEAST = 2;
    private static final int MOST = 4;

    private ShortNames() {}

    /**
     * For each name its first letters, two if that tells them apart and at most four; those that
     * four do not tell apart get their number from the left.
     */
    static List<String> of(List<String> names) {
        for (int letters = LEAST; letters <= MOST; letters++) {
            int n = letters;
            List<String> cut = names.stream().map(name -> first(name, n)).toList();
            if (cut.stream().distinct().count() == names.size()) {
                return cut;
            }
        }
        List<String> numbers = new ArrayList<>();
        for (int i = 1; i <= names.size(); i++) {
            numbers.add(String.valueOf(i));
        }
        return numbers;
    }

    private static String first(String name, int letters) {
        String text = name.strip();
        int count = text.codePointCount(0, text.length());
        return text.substring(0, text.offsetByCodePoints(0, Math.min(letters, count)));
    }
}
