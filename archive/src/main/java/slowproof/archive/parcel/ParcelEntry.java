package slowproof.archive.parcel;

/**
 * An entry of a parcel as its manifest names it.
 *
 * @param path name in the ZIP file
 * @param role what it is for
 * @param sha256 SHA-256 of its content, 64 hexadecimal digits
 * @param bytes size of its content in bytes
 */
record ParcelEntry(String path, Role role, String sha256, long bytes) {
    /** What an entry is for. */
    enum Role {
        /** The events of the trial. */
        EVENTS,
        /** A file that an event names. */
        RAW,
        /** Made from the events; of use to people and other programs, not read when a parcel is taken in. */
        DERIVED
    }
}
