package lookstep.simulator.model.scene;

import lookstep.simulator.model.light.Illuminance;
import lookstep.simulator.model.light.IndirectLight;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.space.Vec3;

/**
 * What one lamp brings to a point of a room, people left out. A lamp behind the background lights
 * nothing in front of it. Pictures and numbers both ask here, so that they cannot differ.
 */
public final class LampInRoom {
    private final Luminaire lamp;
    private final boolean inRoom;
    private final double indirect;

    public LampInRoom(Luminaire lamp, Room room) {
        this.lamp = lamp;
        inRoom = lamp.position().y() < room.backgroundMetres();
        indirect =
                inRoom
                        ? IndirectLight.lux(
                                lamp.beam().fluxLumens(1),
                                room.areaSquareMetres(),
                                room.meanReflectance())
                        : 0;
    }

    /**
     * Illuminance straight from the lamp, lux for each candela on its axis.
     *
     * @param normalOrNull unit normal of the surface; null for a surface that faces the lamp
     */
    public double direct(Vec3 point, Vec3 normalOrNull) {
        return inRoom ? Illuminance.lux(lamp, 1, point, normalOrNull) : 0;
    }

    /** Illuminance that the room gives back, lux for each candela, the same everywhere. */
    public double indirect() {
        return indirect;
    }

    /** Both together, lux for each candela, on an open surface that nobody shades. */
    public double lux(Vec3 point, Vec3 normal) {
        return direct(point, normal) + indirect;
    }
}
