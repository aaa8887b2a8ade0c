package lookstep.protocols.image;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.util.Arrays;
import java.util.List;

/**
 * What any bytes at all may do to the readers of pictures: give notes, never an exception, and
 * never lead out of the file. An ordinary test run only feeds the seeds; {@code FuzzingTest}
 * searches on.
 */
class FuzzImageReaders {
    @FuzzTest
    void readersTakeAnything(byte[] file) {
        ExifReader.read(file);
        JpegInfo.read(file);
        if (JpegStructure.wholeness(file) instanceof Wholeness.Whole whole) {
            // it may be longer than its last picture, never shorter
            inside(whole.length(), file);
        }
        if (TiffStructure.wholeness(file) instanceof Wholeness.Whole whole) {
            inside(whole.length(), file);
        }
        for (EmbeddedPicture picture : EmbeddedPictures.of(file).pictures()) {
            inside(picture.start() + picture.length(), file);
            byte[] bytes =
                    Arrays.copyOfRange(
                            file,
                            (int) picture.start(),
                            (int) (picture.start() + picture.length()));
            if (!JpegInfo.read(bytes)
                    .equals(
                            java.util.Optional.of(
                                    new JpegInfo(picture.width(), picture.height())))) {
                throw new IllegalStateException("another size: " + picture);
            }
            BareJpeg.of(bytes, 6, List.of())
                    .ifPresent(
                            bare -> {
                                if (ExifReader.read(bare).data().orientation() != 6) {
                                    throw new IllegalStateException("the turn is lost");
                                }
                            });
        }
    }

    private static void inside(long end, byte[] file) {
        if (end < 1 || end > file.length) {
            throw new IllegalStateException(end + " of " + file.length);
        }
    }
}
