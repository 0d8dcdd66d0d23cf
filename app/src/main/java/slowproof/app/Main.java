package slowproof.app;

/** Entry point of the command line. */
public final class Main {
    private Main() {}

    /** Runs one command. */
    public static void main(String[] arguments) {
        System.out.println("slowproof");
    }
}
