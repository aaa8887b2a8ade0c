package lookstep.server.order;

/**
 * Makes a row quicker without changing what is in it: pieces are moved and turned round, units end
 * with another shot, while that helps.
 */
final class Straightening {
    private static final int LONGEST_PIECE = 6;

    private final Row row;
    private final int firstFree;
    private final int[][] otherEnds;

    Straightening(Stops stops, Row row) {
        this.row = row;
        firstFree = stops.somethingMustBeFirst() ? 1 : 0;
        otherEnds = new int[stops.units()][];
        for (int u = 0; u < otherEnds.length; u++) {
            otherEnds[u] = stops.stopsOf(u);
        }
    }

    /** Whether the row became quicker. */
    boolean run() {
        boolean any = false;
        boolean better = true;
        while (better) {
            better = endOtherwise();
            better |= movePieces();
            better |= turnPieces();
            any |= better;
        }
        return any;
    }

    private boolean endOtherwise() {
        boolean better = false;
        for (int i = 0; i < row.length(); i++) {
            int[] ends = otherEnds[row.unitAt(i)];
            for (int stop : ends) {
                if (ends.length > 1 && stop != row.stopAt(i)) {
                    int[] other = row.copy();
                    other[i] = stop;
                    better |= row.keepIfQuicker(other);
                }
            }
        }
        return better;
    }

    private boolean movePieces() {
        boolean better = false;
        int length = row.length();
        for (int size = 1; size <= LONGEST_PIECE; size++) {
            for (int first = firstFree; first + size <= length; first++) {
                int last = first + size - 1;
                long saved =
                        row.way(first - 1, first)
                                + row.way(last, last + 1)
                                - row.way(first - 1, last + 1);
                if (saved <= 0) {
                    continue;
                }
                row.looked(length);
                for (int before = firstFree; before <= length; before++) {
                    if (before >= first && before <= last + 1) {
                        continue;
                    }
                    long added = row.way(before - 1, first);
                    if (before < length) {
                        added += row.way(last, before) - row.way(before - 1, before);
                    }
                    if (added < saved && row.keepIfQuicker(moved(first, size, before))) {
                        better = true;
                        break;
                    }
                }
            }
        }
        return better;
    }

    private int[] moved(int first, int size, int before) {
        int[] now = row.copy();
        int[] other = new int[now.length];
        int to = 0;
        for (int i = 0; i <= now.length; i++) {
            if (i == before) {
                System.arraycopy(now, first, other, to, size);
                to += size;
            }
            if (i < now.length && (i < first || i >= first + size)) {
                other[to++] = now[i];
            }
        }
        return other;
    }

    private boolean turnPieces() {
        boolean better = false;
        int length = row.length();
        for (int first = firstFree; first < length - 1; first++) {
            row.looked(length - first);
            long forwards = 0;
            long backwards = 0;
            for (int last = first + 1; last < length; last++) {
                forwards += row.way(last - 1, last);
                backwards += row.way(last, last - 1);
                long now = row.way(first - 1, first) + forwards + row.way(last, last + 1);
                long turned = row.way(first - 1, last) + backwards + row.way(first, last + 1);
                if (turned < now && row.keepIfQuicker(turned(first, last))) {
                    better = true;
                    break;
                }
            }
        }
        return better;
    }

    private int[] turned(int first, int last) {
        int[] other = row.copy();
        for (int i = first; i <= last; i++) {
            other[i] = row.stopAt(first + last - i);
        }
        return other;
    }
}
