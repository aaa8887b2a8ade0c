package lookstep.protocols.gdtf;

import java.io.CharArrayReader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import javax.xml.XMLConstants;
import javax.xml.stream.Location;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * description.xml as a tree of bounded size. A document type declaration is refused, and with it
 * all entities but XML's own five; nothing outside the file is opened.
 */
final class XmlTree {
    /** Large, and of no use for light: passed over, though counted. */
    private static final Set<String> PASSED_OVER =
            Set.of("Models", "Wheels", "Revisions", "FTPresets", "Protocols", "FTMacros");

    private static final char BYTE_ORDER_MARK = '\uFEFF';
    private static final String NO_GDTF = "this is no GDTF file; fetch it from its maker again";

    private final XMLStreamReader xml;
    private final Deque<Element> open = new ArrayDeque<>();
    private Element root;
    private int elements;
    private int textChars;
    private int passedOver;

    private XmlTree(XMLStreamReader xml) {
        this.xml = xml;
    }

    /**
     * @throws Unreadable if it is not well-formed, or too much
     */
    static Element read(byte[] description) throws Unreadable {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_VALIDATING, false);
        // so that an unknown prefix is no error
        factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, false);
        factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
        factory.setXMLResolver(
                (publicId, systemId, base, namespace) -> {
                    throw new XMLStreamException("nothing outside the file is opened");
                });
        char[] text = text(description);
        XMLStreamReader xml = null;
        try {
            xml = factory.createXMLStreamReader(new CharArrayReader(text));
            return new XmlTree(xml).read();
        } catch (XMLStreamException e) {
            Location at = e.getLocation();
            throw new Unreadable(
                    at == null ? 0 : Math.max(0, at.getLineNumber()),
                    at == null ? 0 : Math.max(0, at.getColumnNumber()),
                    "description.xml is no well-formed XML: " + words(e),
                    "fetch or export the file again");
        } catch (RuntimeException e) {
            // the JDK's parser may throw a few of its own
            throw new Unreadable(
                    "description.xml is no well-formed XML", "fetch or export the file again");
        } finally {
            close(xml);
        }
    }

    /** GDTF is UTF-8, whatever the XML declaration says. */
    private static char[] text(byte[] description) throws Unreadable {
        ByteBuffer octets = ByteBuffer.wrap(description);
        CharBuffer text = CharBuffer.allocate(description.length);
        CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
        if (decoder.decode(octets, text, true).isError()) {
            throw new Unreadable(
                    "description.xml is not UTF-8, as GDTF is, from octet %d on"
                            .formatted(octets.position()),
                    "fetch or export the file again");
        }
        text.flip();
        if (text.hasRemaining() && text.get(0) == BYTE_ORDER_MARK) {
            text.get();
        }
        char[] chars = new char[text.remaining()];
        text.get(chars);
        return chars;
    }

    private static String words(XMLStreamException e) {
        String all = String.valueOf(e.getMessage());
        int message = all.indexOf("Message: ");
        return Shown.of(message < 0 ? all : all.substring(message + "Message: ".length()));
    }

    private static void close(XMLStreamReader xml) {
        try {
            if (xml != null) {
                xml.close();
            }
        } catch (XMLStreamException e) {
            // it reads from memory: there is nothing to lose
        }
    }

    private Element read() throws XMLStreamException, Unreadable {
        int before = XMLStreamConstants.START_DOCUMENT;
        while (xml.hasNext()) {
            Location at = xml.getLocation();
            int line = at.getLineNumber();
            // after text the reader has already taken the next tag's first character
            int taken = before == XMLStreamConstants.CHARACTERS ? 1 : 0;
            int column = Math.max(1, at.getColumnNumber() - taken);
            int event = xml.next();
            switch (event) {
                case XMLStreamConstants.START_ELEMENT -> start(line, column);
                case XMLStreamConstants.END_ELEMENT -> end();
                case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA -> text(line, column);
                case XMLStreamConstants.DTD, XMLStreamConstants.ENTITY_REFERENCE ->
                        throw new Unreadable(
                                line,
                                column,
                                "description.xml has a document type declaration, which GDTF does"
                                        + " not have and which can do harm",
                                "do not trust this file; fetch it from its maker again");
                default -> {}
            }
            before = event;
        }
        return root;
    }

    private void start(int line, int column) throws Unreadable {
        if (++elements > Limits.ELEMENTS) {
            throw tooMany(line, column, "elements", Limits.ELEMENTS);
        }
        if (passedOver > 0 || (open.size() > 1 && PASSED_OVER.contains(xml.getLocalName()))) {
            passedOver++;
            requireDepth(open.size() + passedOver, line, column);
            return;
        }
        requireDepth(open.size() + 1, line, column);
        int count = xml.getAttributeCount();
        if (count > Limits.ATTRIBUTES) {
            throw tooMany(line, column, "attributes in one element", Limits.ATTRIBUTES);
        }
        Map<String, String> attributes = count == 0 ? Map.of() : new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
            String value = xml.getAttributeValue(i);
            if (value.length() > Limits.VALUE_CHARS) {
                throw tooMany(line, column, "characters in one attribute", Limits.VALUE_CHARS);
            }
            attributes.put(xml.getAttributeLocalName(i), value);
        }
        Element element = new Element(xml.getLocalName(), attributes, line, column);
        if (open.isEmpty()) {
            root = element;
        } else {
            open.peek().children().add(element);
        }
        open.push(element);
    }

    private void end() {
        if (passedOver > 0) {
            passedOver--;
        } else {
            open.pop();
        }
    }

    private void text(int line, int column) throws Unreadable {
        if (!xml.isWhiteSpace()) {
            textChars += xml.getTextLength();
        }
        if (textChars > Limits.TEXT_CHARS) {
            throw tooMany(line, column, "characters of text", Limits.TEXT_CHARS);
        }
    }

    private static void requireDepth(int depth, int line, int column) throws Unreadable {
        if (depth > Limits.DEPTH) {
            throw tooMany(line, column, "elements in each other", Limits.DEPTH);
        }
    }

    private static Unreadable tooMany(int line, int column, String what, int most) {
        return new Unreadable(
                line, column, "description.xml has more than %d %s".formatted(most, what), NO_GDTF);
    }
}
