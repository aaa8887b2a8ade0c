package lookstep.server;

/** Start. */
public final class Main {
    private Main() {}

    public static void main(String[] args) {
        System.out.println("lookstep");
    }
}
