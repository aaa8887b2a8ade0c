package lookstep.server.web;

import java.util.List;

/**
 * A round of solos on the present look.
 *
 * @param missing who has no solo yet
 * @param canRound whether the key makes one: somebody is missing, and a look is on
 * @param says what the key would do
 */
public record SolosPart(List<String> missing, boolean canRound, String says) {}
