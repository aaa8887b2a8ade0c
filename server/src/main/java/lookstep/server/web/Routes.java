package lookstep.server.web;

import io.undertow.Handlers;
import io.undertow.server.HttpHandler;
import io.undertow.server.RoutingHandler;
import io.undertow.server.handlers.resource.ClassPathResourceManager;
import io.undertow.server.handlers.resource.ResourceHandler;
import io.undertow.util.Headers;
import io.undertow.util.StatusCodes;
import lookstep.server.web.Keys.Who;

/** The whole route table. */
final class Routes {
    private final Gate gate;
    private final Presses presses;
    private final Pictures pictures;
    private final References references;
    private final Trying trying;
    private final HttpHandler rig;
    private final HttpHandler allFrames;
    private final Push band;
    private final Push crew;

    Routes(
            Gate gate,
            Presses presses,
            Pictures pictures,
            References references,
            Trying trying,
            HttpHandler rig,
            HttpHandler allFrames,
            Push band,
            Push crew) {
        this.references = references;
        this.trying = trying;
        this.rig = rig;
        this.allFrames = allFrames;
        this.gate = gate;
        this.presses = presses;
        this.pictures = pictures;
        this.band = band;
        this.crew = crew;
    }

    HttpHandler table() {
        RoutingHandler routes =
                Handlers.routing()
                        .get("/", gate::home)
                        .get("/open/{key}", gate::open)
                        // pages
                        .get("/band", gate.only(Who.BAND, page("band")))
                        .get("/next", gate.only(Who.CREW, page("next")))
                        .get("/set", gate.only(Who.CREW, page("set")))
                        // pictures
                        .get("/frames/{number}", gate.each(pictures::frame, pictures::frameForBand))
                        .get("/thumbs/{number}", gate.only(Who.CREW, pictures::thumbnail))
                        .get("/originals/{number}", gate.only(Who.CREW, pictures::original))
                        .get("/references/{number}", gate.only(Who.CREW, references::picture))
                        .get("/prediction/{shot}", gate.only(Who.CREW, pictures::prediction))
                        // the rig as it is addressed
                        .get("/rig", gate.only(Who.CREW, rig))
                        .get("/all-frames", gate.only(Who.CREW, allFrames))
                        // push
                        .get("/push/band", gate.only(Who.BAND, gate.ownPage(socket(band))))
                        .get("/push/crew", gate.only(Who.CREW, gate.ownPage(socket(crew))))
                        // presses
                        .post("/step", press(presses::step))
                        .post("/back", press(presses::back))
                        .post("/jump", press(presses::jump))
                        .post("/again", press(presses::again))
                        .post("/light", press(presses::light))
                        .post("/test", press(presses::test))
                        .post("/flashing", press(presses::flashing))
                        .post("/frame", press(presses::frame))
                        .post("/show", press(presses::show))
                        .post("/clock", press(presses::clock))
                        .post("/shutter", press(presses::shutter))
                        .post("/plates", press(presses::plates))
                        // the window, and the plan
                        .post("/cut", press(presses::cut))
                        .post("/solos", press(presses::solos))
                        .post("/job", press(presses::job))
                        .post("/place", press(presses::place))
                        .get("/plan", gate.only(Who.CREW, presses::plan))
                        .post("/plan", press(presses::editPlan))
                        .post("/mend", press(presses::mend))
                        // looks that are tried
                        .get("/mix", gate.only(Who.CREW, trying::start))
                        .post("/mix", press(trying::mix))
                        .post("/mix/counted", press(trying::counted))
                        .post("/mix/keep", press(trying::keep))
                        .post("/suggest", press(trying::suggest))
                        .get("/suggested/{id}", gate.only(Who.CREW, trying::suggested))
                        .post("/suggest/put", press(trying::put))
                        .setFallbackHandler(files());
        return gate.guarded(routes);
    }

    private HttpHandler press(HttpHandler one) {
        return gate.only(Who.CREW, gate.ownPage(one));
    }

    private static HttpHandler socket(Push push) {
        return Handlers.websocket((exchange, channel) -> push.add(channel));
    }

    private static HttpHandler page(String name) {
        ResourceHandler files = fromViewer("");
        return exchange -> {
            exchange.setRelativePath("/pages/" + name + "/index.html");
            files.handleRequest(exchange);
        };
    }

    /**
     * Scripts and styles of the pages, open to all; the samples are for developers and stay out.
     */
    private static HttpHandler files() {
        HttpHandler none =
                exchange -> {
                    exchange.setStatusCode(StatusCodes.NOT_FOUND);
                    exchange.getResponseHeaders()
                            .put(Headers.CONTENT_TYPE, "text/plain; charset=utf-8");
                    exchange.getResponseSender()
                            .send("There is no such page. Pages: /band /next /set\n");
                };
        return Handlers.path(none)
                .addPrefixPath("/pages", fromViewer("/pages"))
                .addPrefixPath("/parts", fromViewer("/parts"))
                .addPrefixPath("/live", fromViewer("/live"));
    }

    private static ResourceHandler fromViewer(String folder) {
        return new ResourceHandler(
                        new ClassPathResourceManager(
                                Routes.class.getClassLoader(), "viewer" + folder))
                .setDirectoryListingEnabled(false)
                .setCacheTime(0);
    }
}
