package lookstep.server.frames;

import java.nio.file.Path;

/** What came of making a preview. */
public sealed interface PreviewResult {
    /**
     * A picture fit for the tablet: a JPEG that browsers show upright (by its pixels or its Exif
     * orientation) and in its colours (sRGB, or its own profile). It says nothing else of the
     * original.
     */
    final class Preview implements PreviewResult {
        private final byte[] jpeg;
        private final int widthPixels;
        private final int heightPixels;

        /** Keeps the array, which is not to be changed from then on. */
        public Preview(byte[] jpeg, int widthPixels, int heightPixels) {
            this.jpeg = jpeg;
            this.widthPixels = widthPixels;
            this.heightPixels = heightPixels;
        }

        /** The bytes of the file; shared by all who ask, so not to be changed. */
        public byte[] jpeg() {
            return jpeg;
        }

        /** As shown. */
        public int widthPixels() {
            return widthPixels;
        }

        /** As shown. */
        public int heightPixels() {
            return heightPixels;
        }
    }

    /**
     * No preview can be made; the original is untouched.
     *
     * @param original the file
     * @param words why, and what can be done, ready for the pages
     */
    record FrameProblem(Path original, String words) implements PreviewResult {}
}
