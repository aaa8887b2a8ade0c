package lookstep.protocols.gdtf;

import java.util.List;

/**
 * LogicalChannel (table 59); its name is its attribute.
 *
 * @param snap "Yes", "No", "On" or "Off"
 * @param master "None", "Grand" or "Group"
 * @param functions in the file's order
 */
public record LogicalChannel(
        String attribute, String snap, String master, List<ChannelFunction> functions) {
    public LogicalChannel {
        functions = List.copyOf(functions);
    }
}
