package lookstep.server.checks;

/**
 * Whom or what a finding is about; empty where it is about none.
 *
 * @param shot the shot's id
 * @param look the look's name
 * @param person the person's name
 * @param light the light's name
 */
public record Subject(String shot, String look, String person, String light) {
    /** The plan as a whole. */
    public static final Subject PLAN = new Subject("", "", "", "");

    static Subject shot(Staged staged) {
        return new Subject(staged.shot().id(), staged.look().name(), "", "");
    }

    static Subject look(String name) {
        return new Subject("", name, "", "");
    }

    static Subject light(String name) {
        return new Subject("", "", "", name);
    }

    Subject ofPerson(String name) {
        return new Subject(shot, look, name, light);
    }

    Subject ofLight(String name) {
        return new Subject(shot, look, person, name);
    }
}
