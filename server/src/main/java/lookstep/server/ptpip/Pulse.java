package lookstep.server.ptpip;

/**
 * Whether a quiet camera is still there: it is probed, and one that answers no probe is asked for
 * its cards instead. One thread.
 */
final class Pulse {
    private final Patience patience;
    private boolean probed;
    private long probedNanos;
    private boolean answersProbes = true;

    Pulse(Patience patience) {
        this.patience = patience;
    }

    /**
     * Asks if it is time to.
     *
     * @return when to check again if nothing is heard
     * @throws LinkDownException if it does not answer
     */
    long check(Connection connection, Session session, long nowNanos) throws LinkDownException {
        long heard = connection.heardNanos();
        if (probed && heard - probedNanos >= 0) {
            probed = false;
        }
        if (probed) {
            long until = probedNanos + patience.probeAnswerNanos();
            if (nowNanos - until < 0) {
                return until;
            }
            answersProbes = false;
            probed = false;
        } else if (nowNanos - heard < patience.probeNanos()) {
            return heard + patience.probeNanos();
        } else if (answersProbes) {
            connection.probe();
            probed = true;
            probedNanos = nowNanos;
            return nowNanos + patience.probeAnswerNanos();
        }
        try {
            session.storages();
        } catch (RefusedException alive) {
            // whatever it answers, it is there
        }
        return connection.heardNanos() + patience.probeNanos();
    }
}
