package slowproof.archive;

import java.nio.file.Path;

/** Where an archive is kept. */
public sealed interface ArchivePlace {
    /** How the address of a database server begins. */
    String SERVER_PREFIX = "jdbc:postgresql:";

    /** Returns the place as it may be shown and logged, without anything secret. */
    String shown();

    /** Returns the folder in which raw files lie. */
    Path files();

    /**
     * One folder with an embedded database.
     *
     * @param folder folder
     */
    record Folder(Path folder) implements ArchivePlace {
        @Override
        public String shown() {
            return folder.toAbsolutePath().toString();
        }

        @Override
        public Path files() {
            return folder.resolve("files");
        }
    }

    /**
     * A PostgreSQL database, shared, with a folder for the raw files.
     *
     * @param url JDBC address
     * @param files folder of the raw files
     */
    record Shared(String url, Path files) implements ArchivePlace {
        @Override
        public String shown() {
            int parameters = url.indexOf('?');
            String plain = parameters < 0 ? url : url.substring(0, parameters);
            // an address of the form user:password@host is not one of this driver, but may be typed
            return plain.replaceAll("(?<=[:/])[^/]*@", "");
        }

        /** Hides the secrets of the address. */
        @Override
        public String toString() {
            return "Shared[" + shown() + ", " + files + "]";
        }
    }
}
