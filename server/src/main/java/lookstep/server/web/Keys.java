package lookstep.server.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.server.handlers.Cookie;
import io.undertow.server.handlers.CookieImpl;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Optional;

/**
 * Who may open what. The Wi-Fi of a venue is anybody's: the band's key opens the pictures and
 * nothing else, the crew's key opens everything. A key comes in once by its link and stays in the
 * browser as a cookie.
 *
 * @param crew 20 characters
 * @param band 10 characters, short enough to type
 * @param cookie the cookie's name: browsers share cookies between the ports of a host
 */
public record Keys(String crew, String band, String cookie) {
    /** Digits and letters that are not taken for each other. */
    private static final String ALPHABET = "23456789abcdefghjkmnpqrstuvwxyz";

    /** Whose key it is. */
    public enum Who {
        BAND,
        CREW
    }

    /** A new word that nobody can guess. */
    public static String word(SecureRandom random, int characters) {
        StringBuilder word = new StringBuilder();
        for (int i = 0; i < characters; i++) {
            word.append(ALPHABET.charAt(random.nextInt(ALPHABET.length())));
        }
        return word.toString();
    }

    Optional<Who> who(String key) {
        if (same(key, crew)) {
            return Optional.of(Who.CREW);
        }
        return same(key, band) ? Optional.of(Who.BAND) : Optional.empty();
    }

    Optional<Who> who(HttpServerExchange exchange) {
        try {
            Cookie c = exchange.getRequestCookie(cookie);
            return c == null ? Optional.empty() : who(c.getValue());
        } catch (IllegalArgumentException | IllegalStateException notACookie) {
            return Optional.empty();
        }
    }

    void remember(HttpServerExchange exchange, String key) {
        exchange.setResponseCookie(
                new CookieImpl(cookie, key)
                        .setPath("/")
                        .setHttpOnly(true)
                        .setMaxAge(30 * 24 * 3600)
                        .setSameSiteMode("Lax"));
    }

    private static boolean same(String a, String b) {
        return MessageDigest.isEqual(
                a.getBytes(StandardCharsets.UTF_8), b.getBytes(StandardCharsets.UTF_8));
    }
}
