package lookstep.server.order;

import java.util.Arrays;
import java.util.Random;

/**
 * A good set and order of any number of stops: what gains most a second is put where it costs
 * least, the row is straightened, a piece is torn out, and all of it begins again from the best of
 * late (iterated local search for the orienteering problem, as surveyed by P. Vansteenwegen, W.
 * Souffriau and D. Van Oudheusden, 2011; from memory). A given number of rounds, no clock, a seed
 * of its own: the same question has the same answer.
 */
final class InsertionSearch {
    private static final long SEED = 20_240_611;
    private static final int ROUNDS_WITHOUT_GAIN = 60;

    private final Stops stops;
    private final int window;
    private final int[][] gains;
    private final Random random = new Random(SEED);
    private final int[] row;
    private int length;
    private long time;
    private final boolean[] in;
    private final int[] most;
    private long value;

    private InsertionSearch(Stops stops, int window) {
        this.stops = stops;
        this.window = window;
        gains = stops.gains();
        row = new int[stops.units()];
        in = new boolean[stops.units()];
        most = new int[stops.left().size()];
    }

    /**
     * @param rounds how often a piece is torn out
     */
    static int[] best(Stops stops, int window, int rounds) {
        InsertionSearch search = new InsertionSearch(stops, window);
        return search.run(rounds);
    }

    private int[] run(int rounds) {
        set(new int[0]);
        fill(0);
        int[] best = copy();
        long bestValue = value;
        long bestTime = time;
        int[] current = best;
        long currentValue = value;
        long currentTime = time;
        int without = 0;
        for (int i = 0; i < rounds && length > 0; i++) {
            tear();
            fill(i % 4 * 0.4);
            exchange();
            if (value > currentValue || (value == currentValue && time <= currentTime)) {
                current = copy();
                currentValue = value;
                currentTime = time;
            } else if (random.nextInt(20) == 0) {
                current = copy();
                currentValue = value;
                currentTime = time;
            }
            if (value > bestValue || (value == bestValue && time < bestTime)) {
                best = copy();
                bestValue = value;
                bestTime = time;
                without = 0;
            } else if (++without > ROUNDS_WITHOUT_GAIN) {
                without = 0;
                current = best;
                currentValue = bestValue;
                currentTime = bestTime;
            }
            set(current);
        }
        return best;
    }

    private int[] copy() {
        return Arrays.copyOf(row, length);
    }

    private void set(int[] stopsOfRow) {
        System.arraycopy(stopsOfRow, 0, row, 0, stopsOfRow.length);
        length = stopsOfRow.length;
        recount();
    }

    private void recount() {
        Arrays.fill(in, false);
        Arrays.fill(most, 0);
        time = 0;
        value = 0;
        int from = stops.start();
        for (int i = 0; i < length; i++) {
            time += stops.cost(from, row[i]);
            from = row[i];
            count(stops.unitOf(row[i]));
        }
    }

    private void count(int unit) {
        in[unit] = true;
        int[] meets = gains[unit];
        for (int w = 0; w < most.length; w++) {
            if (meets[w] > most[w]) {
                value += meets[w] - most[w];
                most[w] = meets[w];
            }
        }
    }

    private long gain(int unit) {
        long sum = 0;
        int[] meets = gains[unit];
        for (int w = 0; w < most.length; w++) {
            sum += Math.max(0, meets[w] - most[w]);
        }
        return sum;
    }

    /** What a stop adds to the time if it comes at this place; NEVER if it must not. */
    private long longer(int stop, int at) {
        int before = at == 0 ? stops.start() : row[at - 1];
        long add = stops.cost(before, stop);
        if (at < length) {
            int after = row[at];
            if (add >= Stops.NEVER || stops.cost(stop, after) >= Stops.NEVER) {
                return Stops.NEVER;
            }
            add += stops.cost(stop, after) - stops.cost(before, after);
        }
        if (add >= Stops.NEVER) {
            return Stops.NEVER;
        }
        int round = stops.roundOf(stop);
        int roundBefore = at == 0 ? -1 : stops.roundOf(row[at - 1]);
        int roundAfter = at == length ? -1 : stops.roundOf(row[at]);
        if (roundBefore >= 0 && roundBefore == roundAfter && round != roundBefore) {
            return Stops.NEVER;
        }
        if (round >= 0 && round != roundBefore && round != roundAfter) {
            for (int i = 0; i < length; i++) {
                if (stops.roundOf(row[i]) == round) {
                    return Stops.NEVER;
                }
            }
        }
        return add;
    }

    private void insert(int stop, int at, long add) {
        System.arraycopy(row, at, row, at + 1, length - at);
        row[at] = stop;
        length++;
        time += add;
        count(stops.unitOf(stop));
    }

    /** Puts in what fits, best gain a second first; noise makes another choice each time. */
    private void fill(double noise) {
        boolean straightened = false;
        double[] liking = new double[stops.units()];
        for (int u = 0; u < liking.length; u++) {
            liking[u] = 1 + noise * (random.nextDouble() - 0.5);
        }
        while (true) {
            double bestScore = 0;
            int bestStop = -1;
            int bestAt = 0;
            long bestAdd = 0;
            long gain = 0;
            int counted = -1;
            for (int stop = 0; stop < stops.count(); stop++) {
                int unit = stops.unitOf(stop);
                if (in[unit]) {
                    continue;
                }
                if (unit != counted) {
                    gain = gain(unit);
                    counted = unit;
                }
                for (int at = 0; at <= length; at++) {
                    long add = longer(stop, at);
                    if (time + add > window) {
                        continue;
                    }
                    double score = gain * liking[unit] / (1000.0 + Math.max(0, add));
                    if (stops.mustBeFirst(unit)) {
                        score = Double.MAX_VALUE;
                    }
                    if (score > bestScore) {
                        bestScore = score;
                        bestStop = stop;
                        bestAt = at;
                        bestAdd = add;
                    }
                }
            }
            if (bestStop >= 0) {
                insert(bestStop, bestAt, bestAdd);
                straightened = false;
            } else if (!straightened && straighten()) {
                straightened = true;
            } else {
                return;
            }
        }
    }

    private int firstFree() {
        return stops.somethingMustBeFirst() ? 1 : 0;
    }

    /** Moves pieces and turns them round while the row gets quicker. */
    private boolean straighten() {
        boolean any = false;
        boolean better = true;
        while (better) {
            better = otherEnds() | movePieces() | turnPieces();
            any |= better;
        }
        return any;
    }

    private boolean otherEnds() {
        boolean better = false;
        for (int i = 0; i < length; i++) {
            for (int stop : stops.stopsOf(stops.unitOf(row[i]))) {
                better |= keepIfQuicker(with(i, stop));
            }
        }
        return better;
    }

    private int[] with(int at, int stop) {
        int[] other = copy();
        other[at] = stop;
        return other;
    }

    private boolean keepIfQuicker(int[] other) {
        long quicker = stops.milliseconds(other);
        if (quicker >= time || !stops.allowed(other)) {
            return false;
        }
        System.arraycopy(other, 0, row, 0, length);
        time = quicker;
        return true;
    }

    private int at(int index) {
        return index < 0 ? stops.start() : row[index];
    }

    /** The way between two places of the row; nothing behind its end. */
    private long way(int from, int to) {
        return to >= length ? 0 : stops.cost(at(from), row[to]);
    }

    private boolean movePieces() {
        boolean better = false;
        for (int size = 1; size <= 6; size++) {
            for (int first = firstFree(); first + size <= length; first++) {
                int last = first + size - 1;
                long saved = way(first - 1, first) + way(last, last + 1) - way(first - 1, last + 1);
                if (saved <= 0) {
                    continue;
                }
                for (int before = firstFree(); before <= length; before++) {
                    if (before >= first && before <= last + 1) {
                        continue;
                    }
                    long added =
                            way(before - 1, first)
                                    + (before < length
                                            ? stops.cost(row[last], row[before])
                                                    - way(before - 1, before)
                                            : 0);
                    if (added < saved && keepIfQuicker(moved(first, size, before))) {
                        better = true;
                        break;
                    }
                }
            }
        }
        return better;
    }

    private int[] moved(int first, int size, int before) {
        int[] other = new int[length];
        int to = 0;
        for (int i = 0; i <= length; i++) {
            if (i == before) {
                System.arraycopy(row, first, other, to, size);
                to += size;
            }
            if (i < length && (i < first || i >= first + size)) {
                other[to++] = row[i];
            }
        }
        return other;
    }

    private boolean turnPieces() {
        boolean better = false;
        for (int first = firstFree(); first < length - 1; first++) {
            long forwards = 0;
            long backwards = 0;
            for (int last = first + 1; last < length; last++) {
                forwards += stops.cost(row[last - 1], row[last]);
                backwards += stops.cost(row[last], row[last - 1]);
                long now = way(first - 1, first) + forwards + way(last, last + 1);
                long turned =
                        stops.cost(at(first - 1), row[last])
                                + backwards
                                + (last + 1 < length ? stops.cost(row[first], row[last + 1]) : 0);
                if (turned < now) {
                    int[] other = copy();
                    for (int i = first; i <= last; i++) {
                        other[i] = row[first + last - i];
                    }
                    if (keepIfQuicker(other)) {
                        better = true;
                        break;
                    }
                }
            }
        }
        return better;
    }

    /** One out for one that gains more, while there is such a pair. */
    private void exchange() {
        boolean better = true;
        while (better) {
            better = false;
            for (int i = firstFree(); i < length && !better; i++) {
                better = exchangeAt(i);
            }
        }
    }

    private boolean exchangeAt(int at) {
        int[] before = copy();
        long valueBefore = value;
        int out = stops.unitOf(row[at]);
        System.arraycopy(row, at + 1, row, at, length - at - 1);
        length--;
        if (!stops.allowed(copy())) {
            set(before);
            return false;
        }
        recount();
        int bestStop = -1;
        int bestAt = 0;
        long bestAdd = 0;
        long bestGain = valueBefore - value;
        int counted = -1;
        long gain = 0;
        for (int stop = 0; stop < stops.count(); stop++) {
            int unit = stops.unitOf(stop);
            if (in[unit] || unit == out) {
                continue;
            }
            if (unit != counted) {
                gain = gain(unit);
                counted = unit;
            }
            if (gain <= bestGain) {
                continue;
            }
            for (int place = 0; place <= length; place++) {
                long add = longer(stop, place);
                if (time + add <= window && gain > bestGain) {
                    bestGain = gain;
                    bestStop = stop;
                    bestAt = place;
                    bestAdd = add;
                }
            }
        }
        if (bestStop < 0) {
            set(before);
            return false;
        }
        insert(bestStop, bestAt, bestAdd);
        fill(0);
        return true;
    }

    /**
     * Takes a piece out, or single stops here and there, or all stops that cost much for little.
     */
    private void tear() {
        int free = length - firstFree();
        if (free <= 0) {
            return;
        }
        int most = random.nextInt(4) == 0 ? free : Math.max(1, free / 2);
        int size = 1 + random.nextInt(most);
        if (random.nextInt(3) > 0) {
            int first = firstFree() + random.nextInt(free - size + 1);
            System.arraycopy(row, first + size, row, first, length - first - size);
            length -= size;
        } else {
            for (int i = 0; i < size; i++) {
                int one = firstFree() + random.nextInt(length - firstFree());
                System.arraycopy(row, one + 1, row, one, length - one - 1);
                length--;
            }
        }
        if (!stops.allowed(copy())) {
            length = firstFree();
        }
        recount();
    }
}
