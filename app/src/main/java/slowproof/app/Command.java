package slowproof.app;

import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/**
 * One command of the program. Its words are described by calls, not by annotations: reading annotations costs a
 * small trial more time than evaluating it.
 */
interface Command {
    /** Returns the words that the command takes. */
    CommandSpec words();

    /**
     * Does the work.
     *
     * @param words the words as parsed
     * @param console where to speak
     * @return exit status
     * @throws IOException if a file or stream fails
     */
    int run(ParseResult words, Console console) throws IOException;
}
