package lookstep.protocols.gdtf;

/**
 * Attribute (table 9): what the file says of an attribute.
 *
 * @param name "Dimmer", "ColorAdd_R" ...; case does not matter (annex B)
 * @param pretty short name to show
 * @param feature "Group.Feature"
 * @param mainAttribute the attribute that this one belongs to; empty if none
 * @param physicalUnit "Temperature" (K), "Angle" (degrees) ..., or "None"
 */
public record AttributeDefinition(
        String name, String pretty, String feature, String mainAttribute, String physicalUnit) {}
