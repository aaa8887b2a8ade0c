/**
 * GDTF files (DIN SPEC 15800:2022-02, GDTF 1.2): what a maker says of a light, read from {@code
 * description.xml} in a zip, in the standard's words. Of the description it reads what light, slots
 * and colours need; wheels, filters, colour spaces, gamuts, models, macros, presets and other
 * protocols are passed over. Must not know what Lookstep makes of it. Nothing is unpacked to disk
 * and nothing outside the file is opened.
 */
package lookstep.protocols.gdtf;
