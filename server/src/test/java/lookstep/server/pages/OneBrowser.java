package lookstep.server.pages;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Playwright;

/** Chromium, started once for all tests of pages and closed when they are through. */
final class OneBrowser {
    private static final Playwright PLAYWRIGHT = lookstep.server.end.Browser.playwright();
    private static final Browser CHROMIUM = lookstep.server.end.Browser.chromium(PLAYWRIGHT);

    static {
        Runtime.getRuntime().addShutdownHook(new Thread(PLAYWRIGHT::close));
    }

    private OneBrowser() {}

    static Browser chromium() {
        return CHROMIUM;
    }
}
