package slowproof.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

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
        // told to exit, Java from 21 on first looks for a logger in every library; with nothing left to do it ends
        // without
        if (status != ExitStatus.DONE || othersWork()) {
            System.exit(status);
        }
    }

    /** True when a thread of the program or of a library would keep it from ending. */
    private static boolean othersWork() {
        ThreadGroup group = Thread.currentThread().getThreadGroup();
        while (group.getParent() != null) {
            group = group.getParent();
        }
        Thread[] threads = new Thread[2 * group.activeCount() + 8];
        int count = group.enumerate(threads);
        return Arrays.stream(threads, 0, count)
                .anyMatch(thread -> thread != Thread.currentThread() && !thread.isDaemon());
    }

    /** UTF-8 whatever the locale says: units have signs beyond ASCII. */
    private static PrintStream stream(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), false, StandardCharsets.UTF_8);
    }
}
