package lookstep.protocols.ptpip;

import java.nio.file.Path;
import lookstep.protocols.Fuzzing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A short search by Jazzer for bytes that the packets' and datasets' readers do not take. */
class PtpIpFuzzingTest {
    @Test
    void nothingIsFound(@TempDir Path folder) throws Exception {
        Fuzzing.search(FuzzPtpIp.class, 20, folder);
    }
}
