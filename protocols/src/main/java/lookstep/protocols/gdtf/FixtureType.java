package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;

/**
 * FixtureType (table 3) with what it holds, as far as it is read.
 *
 * @param dataVersion "1.2", or what the file says
 * @param fixtureTypeId GUID, or empty
 * @param geometries the top-level ones
 */
public record FixtureType(
        String dataVersion,
        String name,
        String shortName,
        String longName,
        String manufacturer,
        String description,
        String fixtureTypeId,
        List<AttributeDefinition> attributes,
        List<EmitterDescription> emitters,
        List<DmxProfile> dmxProfiles,
        List<Geometry> geometries,
        List<DmxMode> dmxModes) {
    public FixtureType {
        attributes = List.copyOf(attributes);
        emitters = List.copyOf(emitters);
        dmxProfiles = List.copyOf(dmxProfiles);
        geometries = List.copyOf(geometries);
        dmxModes = List.copyOf(dmxModes);
    }

    /** What the file says of an attribute; case does not matter. */
    public Optional<AttributeDefinition> attribute(String name) {
        return attributes.stream().filter(a -> a.name().equalsIgnoreCase(name)).findFirst();
    }

    /** The emitter of that name. */
    public Optional<EmitterDescription> emitter(String name) {
        return emitters.stream().filter(e -> e.name().equals(name)).findFirst();
    }

    /** The DMX profile of that name. */
    public Optional<DmxProfile> dmxProfile(String name) {
        return dmxProfiles.stream().filter(p -> p.name().equals(name)).findFirst();
    }

    /** The top-level geometry of that name. */
    public Optional<Geometry> geometry(String name) {
        return geometries.stream().filter(g -> g.name().equals(name)).findFirst();
    }

    /**
     * A mode's channels where they lie, with references followed.
     *
     * @param mode one of this type
     */
    public Placement place(DmxMode mode) {
        return Placing.place(this, mode);
    }
}
