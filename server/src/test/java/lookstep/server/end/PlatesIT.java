package lookstep.server.end;

import static lookstep.server.end.Lookstep.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.StreamSupport;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Plates taken on the simulated set, by {@code lookstep rehearse} as a process of its own. */
class PlatesIT {
    private static final JsonMapper JSON = JsonMapper.builder().build();

    @TempDir Path dir;

    private final HttpClient crew =
            HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
    private Lookstep lookstep;
    private String origin;
    private Path plan;

    @AfterEach
    void takeDown() {
        lookstep.close();
    }

    private void rehearse(String way) throws Exception {
        if (plan == null) {
            plan = Files.writeString(dir.resolve("demo.shoot.yaml"), DemoShoot.text());
        }
        lookstep =
                Lookstep.start(
                        dir,
                        "rehearse",
                        plan.toString(),
                        "--way",
                        way.toLowerCase(Locale.ROOT),
                        "--http",
                        "127.0.0.1:0");
        String link = lookstep.link(0);
        origin = link.replaceAll("/open/.*", "");
        crew.send(
                HttpRequest.newBuilder(URI.create(link)).build(),
                HttpResponse.BodyHandlers.discarding());
    }

    private JsonNode press(String path, String body) {
        try {
            HttpResponse<String> answer =
                    crew.send(
                            HttpRequest.newBuilder(URI.create(origin + path))
                                    .header("X-Lookstep", "1")
                                    .header("Content-Type", "application/json")
                                    .POST(
                                            HttpRequest.BodyPublishers.ofString(
                                                    body.replace('\'', '"')))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString());
            assertEquals(200, answer.statusCode(), answer.body());
            return JSON.readTree(answer.body());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
    }

    /** A press that changes nothing is answered with how things are. */
    private JsonNode now() {
        return press("/show", "{'show':'all'}");
    }

    private String state() {
        return now().path("plates").path("state").asText();
    }

    private int taken() {
        return (int)
                StreamSupport.stream(now().path("plates").path("steps").spliterator(), false)
                        .filter(s -> s.path("frame").asInt() > 0)
                        .count();
    }

    @ParameterizedTest
    @ValueSource(strings = {"FOLDER", "PTPIP"})
    void aRehearsalTakesThemAllByItself(String way) throws Exception {
        rehearse(way);
        press("/step", "{'at':0}");
        until("the stand-in has taken its picture", () -> now().path("frames").size() == 1);
        JsonNode begun = press("/plates", "{'do':'begin','standIn':true}");
        assertEquals("plate", begun.path("light").path("what").asText());
        until("some are taken", () -> taken() >= 8, () -> now().path("plates").toString());
        until("they are all taken", () -> taken() == 17, () -> now().path("plates").toString());
        until(
                "they are ready",
                () -> state().equals("ready"),
                () -> now().path("plates").toString());
        assertFalse(now().path("plates").path("taken").asText().isEmpty());
        until("the look is back", () -> now().path("light").path("what").asText().equals("look"));
        JsonNode after = now();
        assertEquals(1, after.path("shots").get(0).path("frames").asInt());
        assertEquals(1, after.path("band").path("frame").asInt());
        assertEquals(1, after.path("position").path("at").asInt());
    }

    @Test
    void theNextLookGivesThemUp() throws Exception {
        rehearse("FOLDER");
        press("/plates", "{'do':'begin','standIn':true}");
        until("some are taken", () -> taken() >= 2);
        JsonNode on = press("/step", "{'at':0}");
        assertEquals("look", on.path("light").path("what").asText());
        until("no longer taking", () -> state().equals("none"));
        assertTrue(now().path("plates").path("says").asText().endsWith("the shoot went on"));
    }

    @Test
    void afterAKillInTheMiddleTheyGoOn() throws Exception {
        rehearse("FOLDER");
        press("/plates", "{'do':'begin','standIn':true}");
        until("some are taken", () -> taken() >= 3);
        lookstep.kill();
        rehearse("FOLDER");
        assertEquals("taking", state());
        assertTrue(taken() >= 3);
        until("they are all taken", () -> taken() == 17, () -> now().path("plates").toString());
    }
}
