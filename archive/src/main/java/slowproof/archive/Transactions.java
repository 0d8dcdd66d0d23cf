package slowproof.archive;

import java.util.function.Function;
import org.jdbi.v3.core.Handle;

/** Runs work on the database, all of it or none. */
interface Transactions {
    /** Runs the work in one transaction and returns its result. */
    <T> T run(Function<Handle, T> work);
}
