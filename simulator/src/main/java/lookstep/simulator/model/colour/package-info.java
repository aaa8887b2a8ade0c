/**
 * Colour by CIE 1931: from a temperature or a chromaticity to what a camera records, and back.
 * Knows nothing of rooms, people, pictures or fixtures.
 */
package lookstep.simulator.model.colour;
