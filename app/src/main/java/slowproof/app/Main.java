package slowproof.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/** Entry point of the command line. */
public final class Main {
    private Main() {}

    /** Runs one command and ends the program with its exit status. */
    public static void main(String[] arguments) {
        PrintStream out = stream(FileDescriptor.out);
        PrintStream err = stream(FileDescriptor.err);
        int status = CommandLineProgram.run(arguments, out, err);
        out.flush();
        err.flush();
        System.exit(status);
    }

    /** UTF-8 whatever the locale says: units have signs beyond ASCII. */
    private static PrintStream stream(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), false, StandardCharsets.UTF_8);
    }
}
