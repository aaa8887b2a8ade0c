package lookstep.protocols.image;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * All directories of a file that is built on TIFF: the first, those chained to it, and those below
 * them (SubIFDs, Exif). Each is read once, however the offsets loop, and only so many of them.
 *
 * @param directories as they were met, the first directory first
 * @param missing the offset of one that lies after the end of what is there
 * @param notes what is odd
 */
record TiffTree(List<Node> directories, Optional<Long> missing, List<String> notes) {
    /** More than any camera writes. */
    static final int MOST_DIRECTORIES = 64;

    private static final int MOST_NOTES = 50;

    /**
     * One directory.
     *
     * @param outside tags of those fields whose values lie after the end of what is there
     */
    record Node(long offset, List<TiffBlock.Field> fields, Set<Integer> outside) {
        Optional<TiffBlock.Field> field(int tag) {
            return fields.stream().filter(field -> field.tag() == tag).findFirst();
        }
    }

    static TiffTree read(TiffBlock tiff) throws IOException {
        List<Node> nodes = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        Optional<Long> missing = Optional.empty();
        Set<Long> met = new HashSet<>();
        Deque<Long> places = new ArrayDeque<>();
        places.add(tiff.firstDirectory());
        while (!places.isEmpty()) {
            long place = places.remove();
            if (!met.add(place)) {
                note(notes, "the directory at offset " + place + " is named twice");
                continue;
            }
            if (nodes.size() == MOST_DIRECTORIES) {
                note(notes, "more than " + MOST_DIRECTORIES + " directories: the rest is left out");
                break;
            }
            TiffBlock.Directory directory = tiff.directory(place);
            directory.notes().forEach(note -> note(notes, note));
            if (directory.missing() && missing.isEmpty()) {
                missing = Optional.of(place);
            }
            nodes.add(new Node(place, directory.fields(), directory.outside()));
            if (directory.next() != 0) {
                places.add(directory.next());
            }
            for (TiffBlock.Field field : directory.fields()) {
                if (field.tag() == ExifTag.SUB_DIRECTORIES
                        || field.tag() == ExifTag.EXIF_DIRECTORY) {
                    for (long offset : tiff.numbers(field, MOST_DIRECTORIES)) {
                        places.add(offset);
                    }
                }
            }
        }
        return new TiffTree(nodes, missing, notes);
    }

    private static void note(List<String> notes, String note) {
        if (notes.size() < MOST_NOTES) {
            notes.add(note);
        }
    }
}
