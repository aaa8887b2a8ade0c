package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One XML element.
 *
 * @param children grows while the file is read
 * @param line where it begins, from 1
 * @param column where it begins, from 1
 */
record Element(
        String name, Map<String, String> attributes, List<Element> children, int line, int column) {
    Element(String name, Map<String, String> attributes, int line, int column) {
        this(name, attributes, new ArrayList<>(0), line, column);
    }

    Optional<Element> child(String name) {
        return children.stream().filter(child -> child.name.equals(name)).findFirst();
    }

    List<Element> children(String name) {
        return children.stream().filter(child -> child.name.equals(name)).toList();
    }

    /** The elements {@code inner} in the first {@code outer}; none if that is not there. */
    List<Element> children(String outer, String inner) {
        return child(outer).map(e -> e.children(inner)).orElse(List.of());
    }
}
