package slowproof.archive;

import org.jdbi.v3.core.HandleCallback;

/** The database of an archive, as the parts that keep something in it see it. Safe for use by several threads. */
public interface Database extends AutoCloseable {
    /** Reads. */
    <T> T read(HandleCallback<T, RuntimeException> work);

    /** Writes in one transaction: all of it or nothing. When it returns, all of it is on the disk. */
    <T> T write(HandleCallback<T, RuntimeException> work);

    /** Closes its connections. */
    @Override
    void close();
}
