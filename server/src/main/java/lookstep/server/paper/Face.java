package lookstep.server.paper;

/** The two faces that everything is set in: DejaVu Sans Condensed, shipped beside this class. */
enum Face {
    PLAIN("DejaVuSansCondensed.ttf"),
    BOLD("DejaVuSansCondensed-Bold.ttf");

    private final String file;

    Face(String file) {
        this.file = file;
    }

    String resource() {
        return "/lookstep/paper/" + file;
    }
}
