/**
 * Which looks of a rig differ most from each other and can be photographed: every look is a
 * weighted sum of what each emitter brings, so thousands are summed and compared. Pure; must not
 * know of the pages, of the live state, or of where plates come from.
 */
package lookstep.server.suggest;
