package lookstep.server.order;

import java.util.Arrays;

/**
 * A row of stops that is put together and taken apart: how long it takes, what it is worth, and
 * what one more or one less would change. Counts the steps of that, so that a search can be given a
 * number of them.
 */
final class Row {
    /** Wishes that are looked through in about the time of one place of a row. */
    private static final int WISHES_PER_STEP = 8;

    private final Stops stops;
    private final int n;
    private final int[] costs;
    private final int[] unitOf;
    private final int[] roundOf;
    private final int[][] gains;
    private final int wishes;
    private final int[] roundLength;
    private final int[] row;
    private int length;
    private long time;
    private long value;
    private final boolean[] in;

    /** Wish by wish: what is met best, by which unit, and what the second best meets. */
    private final int[] most;

    private final int[] owner;
    private final int[] second;
    private long steps;

    Row(Stops stops) {
        this.stops = stops;
        n = stops.count();
        costs = new int[(n + 1) * n];
        unitOf = new int[n];
        roundOf = new int[n];
        int rounds = 0;
        for (int to = 0; to < n; to++) {
            unitOf[to] = stops.unitOf(to);
            roundOf[to] = stops.roundOf(to);
            rounds = Math.max(rounds, roundOf[to] + 1);
            for (int from = 0; from <= n; from++) {
                costs[from * n + to] = stops.cost(from, to);
            }
        }
        gains = stops.gains();
        wishes = stops.left().size();
        roundLength = new int[rounds];
        row = new int[stops.units()];
        in = new boolean[stops.units()];
        most = new int[wishes];
        owner = new int[wishes];
        second = new int[wishes];
    }

    int length() {
        return length;
    }

    long milliseconds() {
        return time;
    }

    /** Thousandths of importance. */
    long value() {
        return value;
    }

    /** How many places were looked at since it was made. */
    long steps() {
        return steps;
    }

    boolean has(int unit) {
        return in[unit];
    }

    int unitAt(int place) {
        return unitOf[row[place]];
    }

    /** The stop at a place; the start before the first. */
    int stopAt(int place) {
        return place < 0 ? n : row[place];
    }

    int[] copy() {
        return Arrays.copyOf(row, length);
    }

    void set(int[] stopsOfRow) {
        System.arraycopy(stopsOfRow, 0, row, 0, stopsOfRow.length);
        length = stopsOfRow.length;
        recount();
    }

    private void recount() {
        Arrays.fill(in, false);
        Arrays.fill(most, 0);
        Arrays.fill(owner, -1);
        Arrays.fill(second, 0);
        Arrays.fill(roundLength, 0);
        time = 0;
        value = 0;
        int from = n;
        for (int i = 0; i < length; i++) {
            time += costs[from * n + row[i]];
            from = row[i];
            count(from);
        }
        steps += (long) length * wishes / WISHES_PER_STEP;
    }

    private void count(int stop) {
        int unit = unitOf[stop];
        in[unit] = true;
        if (roundOf[stop] >= 0) {
            roundLength[roundOf[stop]]++;
        }
        int[] meets = gains[unit];
        for (int w = 0; w < wishes; w++) {
            int one = meets[w];
            if (one > most[w]) {
                value += one - most[w];
                second[w] = most[w];
                most[w] = one;
                owner[w] = unit;
            } else if (one > second[w]) {
                second[w] = one;
            }
        }
    }

    /** What a unit that is not in would add. */
    long gain(int unit) {
        return gain(unit, most);
    }

    /** What a unit would add to what is met of each wish. */
    long gain(int unit, int[] met) {
        int sum = 0;
        int[] meets = gains[unit];
        for (int w = 0; w < wishes; w++) {
            sum += Math.max(0, meets[w] - met[w]);
        }
        steps += 1 + wishes / WISHES_PER_STEP;
        return sum;
    }

    /** What is met of each wish if a unit of the row were not in it. */
    int[] metWithout(int unit) {
        int[] met = new int[wishes];
        for (int w = 0; w < wishes; w++) {
            met[w] = owner[w] == unit ? second[w] : most[w];
        }
        return met;
    }

    /** Unit by unit, what the row would be worth less without it. */
    long[] losses() {
        long[] losses = new long[in.length];
        for (int w = 0; w < wishes; w++) {
            if (owner[w] >= 0) {
                losses[owner[w]] += most[w] - second[w];
            }
        }
        steps += wishes / WISHES_PER_STEP;
        return losses;
    }

    /** Milliseconds saved if the stop at a place were not in. */
    long saved(int place) {
        return way(place - 1, place) + way(place, place + 1) - way(place - 1, place + 1);
    }

    /** Between two places of the row; nothing behind its end. */
    long way(int from, int to) {
        return to >= length ? 0 : costs[stopAt(from) * n + row[to]];
    }

    /** What a stop adds to the time if it comes at this place; NEVER if it must not. */
    int longer(int stop, int at) {
        steps++;
        int before = at == 0 ? n : row[at - 1];
        int add = costs[before * n + stop];
        if (add >= Stops.NEVER) {
            return Stops.NEVER;
        }
        int roundAfter = -1;
        if (at < length) {
            int after = row[at];
            int on = costs[stop * n + after];
            if (on >= Stops.NEVER) {
                return Stops.NEVER;
            }
            add += on - costs[before * n + after];
            roundAfter = roundOf[after];
        }
        int round = roundOf[stop];
        int roundBefore = at == 0 ? -1 : roundOf[before];
        if (roundBefore >= 0 && roundBefore == roundAfter && round != roundBefore) {
            return Stops.NEVER;
        }
        boolean begins = round >= 0 && round != roundBefore && round != roundAfter;
        return begins && roundLength[round] > 0 ? Stops.NEVER : add;
    }

    /** Puts a stop in at a place where it may come. */
    void insert(int stop, int at) {
        time += longer(stop, at);
        System.arraycopy(row, at, row, at + 1, length - at);
        row[at] = stop;
        length++;
        count(stop);
        steps += wishes / WISHES_PER_STEP;
    }

    /** Takes a piece out. */
    void remove(int at, int size) {
        System.arraycopy(row, at + size, row, at, length - at - size);
        length -= size;
        recount();
    }

    /** Takes units out wherever they are. */
    void remove(boolean[] units) {
        int to = 0;
        for (int i = 0; i < length; i++) {
            if (!units[unitOf[row[i]]]) {
                row[to++] = row[i];
            }
        }
        length = to;
        recount();
    }

    /** The same units in another order, or with other ends, if that is allowed and quicker. */
    boolean keepIfQuicker(int[] other) {
        steps += length;
        long quicker = stops.milliseconds(other);
        if (quicker >= time || !stops.allowed(other)) {
            return false;
        }
        System.arraycopy(other, 0, row, 0, length);
        time = quicker;
        return true;
    }

    /** Counts places that were looked at by others. */
    void looked(int places) {
        steps += places;
    }
}
