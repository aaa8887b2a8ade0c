package lookstep.server.plan;

import java.util.List;

/**
 * Tells shots apart by what the camera sees of people and room: another lens, place of the camera,
 * arrangement, person or room is another; other words, another name or another use are not.
 */
public final class ShotHash {
    private ShotHash() {}

    /**
     * SHA-256 in hex.
     *
     * @param plan at the place where the shot is made
     * @param standIn somebody else stands there: how the people look does not matter, but where
     *     they stand does
     */
    public static String of(ShootPlan plan, Shot shot, boolean standIn) {
        StringBuilder text = new StringBuilder();
        text.append(shot.lensMillimetres())
                .append('|')
                .append(shot.distanceMetres())
                .append('|')
                .append(shot.cameraHeightMetres())
                .append('|')
                .append(shot.arrangement())
                .append(plan.around().sensor())
                .append(plan.house())
                .append(shot.people().size())
                .append('\n');
        Place place = plan.place();
        text.append(place.widthMetres())
                .append('|')
                .append(place.depthMetres())
                .append('|')
                .append(place.heightMetres())
                .append('|')
                .append(place.backgroundMetres())
                .append('|')
                .append(place.backgroundReflectance())
                .append('|')
                .append(place.floorReflectance())
                .append('|')
                .append(place.wallReflectance());
        for (String name : standIn ? List.<String>of() : shot.people()) {
            Person person = plan.person(name);
            text.append('\n')
                    .append(person.heightMetres())
                    .append(person.skin())
                    .append(person.hair())
                    .append(person.top())
                    .append(person.bottom());
        }
        return Sha256.hex(text.toString());
    }
}
