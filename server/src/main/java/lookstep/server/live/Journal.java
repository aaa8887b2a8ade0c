package lookstep.server.live;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/**
 * Everything that happened, on disk: one SQLite file for one shoot, append only. An event is
 * durable when {@link #append} returns ({@code synchronous=FULL}: the write-ahead log is synced at
 * each commit). The file is locked for as long as it is open, so no second program serves the same
 * shoot.
 */
public final class Journal implements AutoCloseable {
    private static final ObjectMapper JSON = JsonMapper.builder().build();

    /** One event and when it happened. */
    public record Entry(long atEpochMillis, Event event) {}

    private final Connection connection;
    private final PreparedStatement insert;

    private Journal(Connection connection) throws SQLException {
        this.connection = connection;
        try (Statement s = connection.createStatement()) {
            s.execute("PRAGMA locking_mode = EXCLUSIVE");
            s.execute("PRAGMA journal_mode = WAL");
            s.execute("PRAGMA synchronous = FULL");
            s.execute(
                    "CREATE TABLE IF NOT EXISTS event"
                            + " (seq INTEGER PRIMARY KEY, at_epoch_millis INTEGER NOT NULL, body TEXT NOT NULL)");
            s.execute(
                    "CREATE TABLE IF NOT EXISTS setting (name TEXT PRIMARY KEY, value TEXT NOT NULL)");
        }
        insert =
                connection.prepareStatement(
                        "INSERT INTO event (at_epoch_millis, body) VALUES (?, ?)");
    }

    /**
     * Opens or makes the journal.
     *
     * @throws IOException if it cannot be had; the message names the file and the mend
     */
    public static Journal open(Path file) throws IOException {
        Connection c = null;
        try {
            c = DriverManager.getConnection("jdbc:sqlite:" + file);
            return new Journal(c);
        } catch (SQLException e) {
            closeQuietly(c);
            throw new IOException(cannotOpen(file, e), e);
        }
    }

    private static String cannotOpen(Path file, SQLException e) {
        String why = String.valueOf(e.getMessage());
        if (why.contains("locked") || why.contains("BUSY")) {
            return file
                    + ": this shoot is already being served by another lookstep; stop that one first";
        }
        if (why.contains("NOTADB") || why.contains("malformed") || why.contains("CORRUPT")) {
            return file
                    + ": this journal is damaged ("
                    + why
                    + "); move it away to begin anew, and keep it";
        }
        return file
                + ": the journal cannot be opened ("
                + why
                + "); make sure that its folder can be written";
    }

    private static void closeQuietly(Connection c) {
        if (c != null) {
            try {
                c.close();
            } catch (SQLException ignored) {
                // the first error is the one to tell
            }
        }
    }

    /**
     * All of them or none, durable on return.
     *
     * @throws IOException if they could not be written, such as on a full disk: they have then not
     *     happened
     */
    public synchronized void append(List<Entry> entries) throws IOException {
        try {
            connection.setAutoCommit(false);
            for (Entry entry : entries) {
                insert.setLong(1, entry.atEpochMillis());
                insert.setString(2, JSON.writerFor(Event.class).writeValueAsString(entry.event()));
                insert.executeUpdate();
            }
            connection.commit();
        } catch (SQLException | JsonProcessingException e) {
            rollback();
            throw new IOException("the journal could not be written: " + e.getMessage(), e);
        }
    }

    private void rollback() {
        try {
            connection.rollback();
        } catch (SQLException ignored) {
            // the first error is the one to tell
        }
    }

    /** All, from the first. */
    public synchronized List<Entry> entries() throws IOException {
        List<Entry> entries = new ArrayList<>();
        try (Statement s = connection.createStatement();
                ResultSet rows =
                        s.executeQuery("SELECT at_epoch_millis, body FROM event ORDER BY seq")) {
            while (rows.next()) {
                entries.add(
                        new Entry(rows.getLong(1), JSON.readValue(rows.getString(2), Event.class)));
            }
        } catch (SQLException | JsonProcessingException e) {
            throw new IOException("the journal could not be read: " + e.getMessage(), e);
        }
        return entries;
    }

    /**
     * A word that belongs to this shoot for good, made on first use: the key to the crew's pages.
     */
    public synchronized String setting(String name, String firstValue) throws IOException {
        try (PreparedStatement put =
                        connection.prepareStatement(
                                "INSERT INTO setting (name, value) VALUES (?, ?) ON CONFLICT DO NOTHING");
                PreparedStatement get =
                        connection.prepareStatement("SELECT value FROM setting WHERE name = ?")) {
            put.setString(1, name);
            put.setString(2, firstValue);
            put.executeUpdate();
            if (!connection.getAutoCommit()) {
                connection.commit();
            }
            get.setString(1, name);
            try (ResultSet row = get.executeQuery()) {
                row.next();
                return row.getString(1);
            }
        } catch (SQLException e) {
            throw new IOException("the journal could not be used: " + e.getMessage(), e);
        }
    }

    /** The state that these entries make. */
    public static LiveState replay(List<Entry> entries) {
        LiveState state = LiveState.NEW;
        for (Entry e : entries) {
            state = state.after(e.event(), e.atEpochMillis());
        }
        return state;
    }

    @Override
    public synchronized void close() {
        closeQuietly(connection);
    }
}
