package lookstep.protocols.image;

import java.nio.file.Path;
import lookstep.protocols.Fuzzing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A short search in each build; see {@link FuzzImageReaders}. */
class FuzzingTest {
    @TempDir Path folder;

    @Test
    void nothingBreaksTheReadersOfPictures() throws Exception {
        Fuzzing.search(FuzzImageReaders.class, 20, folder);
    }
}
