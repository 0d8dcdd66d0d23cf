package slowproof.app;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/**
 * A command that was run in this process, as a user meets it.
 *
 * @param status exit status
 * @param out what it printed on standard output
 * @param err what it printed on standard error
 */
public record CommandRun(int status, String out, String err) {
    /** Runs a command to its end. */
    public static CommandRun of(String... words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        PrintStream outStream = new PrintStream(out, false, StandardCharsets.UTF_8);
        PrintStream errStream = new PrintStream(err, false, StandardCharsets.UTF_8);
        int status = CommandLineProgram.run(words, outStream, errStream);
        outStream.flush();
        errStream.flush();
        return new CommandRun(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }
}
