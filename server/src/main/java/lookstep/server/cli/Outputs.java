package lookstep.server.cli;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Where the light goes out, as the command line says; at least one of line and network is there.
 *
 * @param line a serial adapter
 * @param lineUniverse which universe the line carries
 * @param network an interface's name or IPv4 address
 * @param machines single machines to send to, HOST or HOST:PORT
 * @param multicast whether the universes' groups are sent to
 * @param priority among several senders
 * @param syncUniverse on which lights are told to act together
 */
public record Outputs(
        Optional<String> line,
        int lineUniverse,
        Optional<String> network,
        List<String> machines,
        boolean multicast,
        int priority,
        OptionalInt syncUniverse) {}
