package lookstep.server.end;

import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Debian's Chromium without a window. */
public final class Browser {
    private Browser() {}

    public static Playwright playwright() {
        return Playwright.create(
                new Playwright.CreateOptions()
                        .setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    }

    public static com.microsoft.playwright.Browser chromium(Playwright playwright) {
        return playwright
                .chromium()
                .launch(
                        new BrowserType.LaunchOptions()
                                .setExecutablePath(Path.of("/usr/bin/chromium"))
                                .setArgs(
                                        List.of(
                                                "--no-sandbox",
                                                "--disable-gpu",
                                                "--disable-quic",
                                                "--no-first-run",
                                                "--disable-background-networking",
                                                "--disable-component-update",
                                                "--disable-sync")));
    }
}
