package slowproof.archive.parcel;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.RecordedEvent;
import slowproof.archive.parcel.ParcelEntry.Role;

/** Writes a trial as a parcel. The same trial written by the same program gives the same bytes. */
public final class ParcelWriter {
    /** Name of the entry with the events. */
    static final String EVENTS = "events.json";

    /** Field of an event that names a kept file. */
    static final String FILE_FIELD = "sha256";

    /** The earliest time that a ZIP file can state: a parcel does not depend on when it was written. */
    private static final LocalDateTime TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

    private static final int LONGEST_NAME = 60;
    private static final int HASH_IN_NAME = 16;

    private ParcelWriter() {}

    /**
     * Writes a trial; the stream stays open.
     *
     * @param archive where its raw files are
     * @param trial id of the trial
     * @param events everything recorded of the trial at one moment, from its first event on without gaps
     * @param program version and commit of this program
     * @param derived files made from the trial, by name: letters, digits and {@code . _ -} in folders divided by /
     * @param stream where to
     * @throws IOException if the stream fails, or a raw file cannot be read
     */
    public static void write(
            Archive archive,
            String trial,
            List<RecordedEvent> events,
            String program,
            Map<String, byte[]> derived,
            OutputStream stream)
            throws IOException {
        Map<String, Path> raw = new LinkedHashMap<>();
        Map<String, ParcelEntry> entries = new TreeMap<>();
        for (RecordedEvent recorded : events) {
            Event event = recorded.event();
            String sha256 = event.text(FILE_FIELD);
            if (sha256.isEmpty() || raw.containsKey(sha256)) {
                continue;
            }
            Path file = archive.file(sha256)
                    .orElseThrow(() -> new IOException("the raw file " + sha256 + " of event " + event.seq()
                            + " does not lie in the folder of files"));
            raw.put(sha256, file);
            put(entries, new ParcelEntry(path(sha256, event.text("name")), Role.RAW, sha256, Files.size(file)));
        }
        byte[] written = EventsJson.write(events);
        put(entries, new ParcelEntry(EVENTS, Role.EVENTS, sha256(written), written.length));
        derived.forEach(
                (path, content) -> put(entries, new ParcelEntry(path, Role.DERIVED, sha256(content), content.length)));
        Manifest manifest = new Manifest(program, trial, new ArrayList<>(entries.values()));
        ZipOutputStream zip = new ZipOutputStream(stream);
        add(zip, Manifest.PATH, manifest.toJson());
        for (ParcelEntry entry : entries.values()) {
            switch (entry.role()) {
                case EVENTS -> add(zip, entry.path(), written);
                case DERIVED -> add(zip, entry.path(), derived.getOrDefault(entry.path(), new byte[0]));
                case RAW -> {
                    begin(zip, entry.path());
                    try (InputStream file = Files.newInputStream(raw.getOrDefault(entry.sha256(), Path.of("")))) {
                        file.transferTo(zip);
                    }
                    zip.closeEntry();
                }
            }
        }
        zip.finish();
    }

    private static void put(Map<String, ParcelEntry> entries, ParcelEntry entry) {
        if (!ParcelReader.PATH.matcher(entry.path()).matches() || entries.put(entry.path(), entry) != null) {
            throw new IllegalArgumentException("not a name of an entry, or a second one: " + entry.path());
        }
    }

    /**
     * Returns the path of a raw file in a parcel. The beginning of the hash keeps names apart, the name of the file as
     * it was sent tells people what it is.
     *
     * @param sha256 SHA-256 of the file, 64 hexadecimal digits
     * @param name its name as it was sent
     */
    public static String path(String sha256, String name) {
        String plain = name.replaceAll("[^A-Za-z0-9._-]+", "_");
        String end = plain.substring(Math.max(0, plain.length() - LONGEST_NAME));
        return "raw/" + sha256.substring(0, HASH_IN_NAME) + (end.isEmpty() ? "" : "-" + end);
    }

    private static void add(ZipOutputStream zip, String path, byte[] content) throws IOException {
        begin(zip, path);
        zip.write(content);
        zip.closeEntry();
    }

    private static void begin(ZipOutputStream zip, String path) throws IOException {
        ZipEntry entry = new ZipEntry(path);
        entry.setTimeLocal(TIME);
        zip.putNextEntry(entry);
    }

    static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String sha256(byte[] content) {
        return HexFormat.of().formatHex(digest().digest(content));
    }
}
