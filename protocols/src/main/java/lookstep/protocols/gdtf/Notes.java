package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.List;

/** The notes so far; of very many the last are counted only. */
final class Notes {
    private final List<GdtfNote> notes = new ArrayList<>();
    private int more;

    void add(Element at, String what) {
        add(new GdtfNote(at.line(), at.column(), what));
    }

    void add(String what) {
        add(new GdtfNote(0, 0, what));
    }

    /** The first so many of a list of elements; a note on the others. */
    List<Element> first(List<Element> elements, int most) {
        if (elements.size() <= most) {
            return elements;
        }
        Element over = elements.get(most);
        add(
                over,
                "of %d %s only %d are read"
                        .formatted(elements.size(), Shown.of(over.name()), most));
        return elements.subList(0, most);
    }

    private void add(GdtfNote note) {
        if (notes.size() < Limits.NOTES) {
            notes.add(note);
        } else {
            more++;
        }
    }

    List<GdtfNote> all() {
        List<GdtfNote> all = new ArrayList<>(notes);
        if (more > 0) {
            all.add(new GdtfNote(0, 0, "and " + more + " more like these"));
        }
        return all;
    }
}
