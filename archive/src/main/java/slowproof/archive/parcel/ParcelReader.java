package slowproof.archive.parcel;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.util.Enumeration;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import slowproof.archive.Archive;
import slowproof.archive.RecordedEvent;
import slowproof.archive.TakenIn;
import slowproof.archive.parcel.ParcelEntry.Role;
import slowproof.archive.sheet.Sheet;

/**
 * Takes parcels in. A parcel is foreign until every entry has been read through and found to be what the manifest says;
 * only then is anything kept. No entry is ever written under a name of the parcel's choosing.
 */
public final class ParcelReader {
    /** Names of entries: no way up, no way out, nothing hidden. */
    static final Pattern PATH =
            Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,119}(/[A-Za-z0-9][A-Za-z0-9._-]{0,119}){0,3}");

    private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern TRIAL = Pattern.compile("[a-z0-9]{12}");
    private static final int MOST_ENTRIES = 5_000;
    private static final long LARGEST_MANIFEST = 4L << 20;
    private static final long LARGEST_EVENTS = 32L << 20;

    /** Most bytes that all entries together may have. */
    private static final long LARGEST = 16L << 30;

    /** Logs shrink to a tenth or less; what grows to more than this many times its size was made to fill a disk. */
    private static final long MOST_GROWTH = 200;

    private static final long GROWTH_ALLOWED_ANYWAY = 16L << 20;

    private final ZipFile zip;
    private final long size;
    private final Map<String, ZipEntry> found = new TreeMap<>();

    private ParcelReader(ZipFile zip, long size) {
        this.zip = zip;
        this.size = size;
    }

    /**
     * Takes a parcel into an archive, all of it or nothing.
     *
     * @param file the parcel
     * @param archive where to
     * @return what became of it
     * @throws ParcelRefusedException if it is no whole and sound parcel, or its trial went on differently here
     * @throws IOException if the file cannot be read
     */
    public static TakenIn takeIn(Path file, Archive archive) throws IOException, ParcelRefusedException {
        try (ZipFile zip = open(file)) {
            return new ParcelReader(zip, Files.size(file)).takeIn(archive);
        } catch (JsonProcessingException e) {
            throw new ParcelRefusedException("json", String.valueOf(e.getOriginalMessage()));
        } catch (ZipException e) {
            throw new ParcelRefusedException("not_zip", String.valueOf(e.getMessage()));
        }
    }

    private static ZipFile open(Path file) throws IOException, ParcelRefusedException {
        try {
            return new ZipFile(file.toFile());
        } catch (ZipException e) {
            throw new ParcelRefusedException("not_zip", String.valueOf(e.getMessage()));
        }
    }

    private TakenIn takeIn(Archive archive) throws IOException, ParcelRefusedException {
        look();
        ZipEntry first = found.get(Manifest.PATH);
        if (first == null) {
            throw new ParcelRefusedException("no_manifest", Manifest.PATH);
        }
        Manifest manifest = Manifest.read(whole(first, LARGEST_MANIFEST));
        Map<String, ParcelEntry> raw = check(manifest);
        ParcelEntry listed = manifest.entries().stream()
                .filter(entry -> entry.role() == Role.EVENTS)
                .findFirst()
                .orElseThrow(() -> new ParcelRefusedException("half", ParcelWriter.EVENTS));
        for (ParcelEntry entry : manifest.entries()) {
            requireContent(entry);
        }
        List<RecordedEvent> events;
        try (InputStream stream = content(listed)) {
            events = EventsJson.read(stream);
        }
        requireWhole(manifest.trial(), events, raw);
        for (ParcelEntry entry : raw.values()) {
            try (InputStream stream = content(entry)) {
                archive.keepFile(stream);
            }
        }
        TakenIn taken = archive.takeIn(manifest.trial(), events);
        if (taken.outcome() == TakenIn.Outcome.DIFFERS) {
            throw new ParcelRefusedException("differs", taken.trial(), taken.seq());
        }
        return taken;
    }

    /** Looks through the names, so that nothing is read of a file that is not even named as a parcel is. */
    private void look() throws ParcelRefusedException {
        Enumeration<? extends ZipEntry> all = zip.entries();
        int count = 0;
        while (all.hasMoreElements()) {
            ZipEntry entry = all.nextElement();
            String name = entry.getName();
            count++;
            if (count > MOST_ENTRIES) {
                throw new ParcelRefusedException("entries", MOST_ENTRIES);
            }
            if (entry.isDirectory() || !PATH.matcher(name).matches()) {
                throw new ParcelRefusedException("name", shown(name));
            }
            if (found.put(name, entry) != null) {
                throw new ParcelRefusedException("twice", name);
            }
        }
    }

    /** Returns the raw files by their hash, when the manifest and the names in the file fit. */
    private Map<String, ParcelEntry> check(Manifest manifest) throws ParcelRefusedException {
        if (!TRIAL.matcher(manifest.trial()).matches()) {
            throw new ParcelRefusedException("manifest", "\"trial\": \"abcdefgh2345\"");
        }
        Map<String, ParcelEntry> raw = new HashMap<>();
        long sum = 0;
        int listed = 0;
        for (ParcelEntry entry : manifest.entries()) {
            if (!SHA256.matcher(entry.sha256()).matches() || entry.bytes() < 0 || entry.bytes() > LARGEST) {
                throw new ParcelRefusedException("manifest", "\"sha256\": 64 x 0-9a-f, \"bytes\": 0...");
            }
            if (!found.containsKey(entry.path()) || entry.path().equals(Manifest.PATH)) {
                throw new ParcelRefusedException("half", shown(entry.path()));
            }
            listed++;
            sum += entry.bytes();
            if (sum > LARGEST || (sum > GROWTH_ALLOWED_ANYWAY && sum / MOST_GROWTH > size)) {
                throw new ParcelRefusedException("bomb", size, sum);
            }
            if (entry.role() == Role.RAW) {
                raw.put(entry.sha256(), entry);
            }
        }
        if (listed != found.size() - 1
                || manifest.entries().stream().map(ParcelEntry::path).distinct().count() != listed) {
            throw new ParcelRefusedException("not_listed", found.size() - 1, listed);
        }
        return raw;
    }

    /** Reads an entry to its end without keeping it; never more than its manifest says, whatever its heading claims. */
    private void requireContent(ParcelEntry entry) throws IOException, ParcelRefusedException {
        if (entry.role() == Role.EVENTS && entry.bytes() > LARGEST_EVENTS) {
            throw new ParcelRefusedException("bomb", size, entry.bytes());
        }
        try (CheckedContent content = new CheckedContent(stream(entry), entry)) {
            content.skipNBytes(entry.bytes());
            content.requireEnd();
        } catch (EOFException e) {
            throw new ParcelRefusedException("hash", entry.path());
        }
    }

    private InputStream content(ParcelEntry entry) throws IOException {
        return new BufferedInputStream(stream(entry));
    }

    private InputStream stream(ParcelEntry entry) throws IOException {
        return zip.getInputStream(Objects.requireNonNull(found.get(entry.path()), entry.path()));
    }

    private byte[] whole(ZipEntry entry, long most) throws IOException, ParcelRefusedException {
        try (InputStream stream = zip.getInputStream(entry)) {
            byte[] content = stream.readNBytes((int) most + 1);
            if (content.length > most) {
                throw new ParcelRefusedException("bomb", size, content.length);
            }
            return content;
        }
    }

    /** Events that name a file which is not there, or that no trial can be made of, are half a trial. */
    private static void requireWhole(String trial, List<RecordedEvent> events, Map<String, ParcelEntry> raw)
            throws ParcelRefusedException {
        for (RecordedEvent recorded : events) {
            String file = recorded.event().text(ParcelWriter.FILE_FIELD);
            if (!file.isEmpty() && !raw.containsKey(file)) {
                throw new ParcelRefusedException("half", shown(file));
            }
        }
        try {
            Sheet.of(trial, events.stream().map(RecordedEvent::event).toList());
        } catch (RuntimeException e) {
            throw new ParcelRefusedException("no_trial", String.valueOf(e.getMessage()));
        }
    }

    /** A foreign name in a message: short, and without signs that a terminal would obey. */
    private static String shown(String name) {
        String plain = name.replaceAll("[^\\p{L}\\p{N}\\p{P}\\p{S} ]", "?");
        return plain.length() > 80 ? plain.substring(0, 80) + "…" : plain;
    }

    /** Keeps the hash of what is read through. */
    private static final class CheckedContent extends DigestInputStream {
        private final ParcelEntry entry;
        private final byte[] passing = new byte[1 << 16];

        CheckedContent(InputStream stream, ParcelEntry entry) {
            super(stream, ParcelWriter.digest());
            this.entry = entry;
        }

        void requireEnd() throws IOException, ParcelRefusedException {
            boolean ended = read() < 0;
            String sha256 = HexFormat.of().formatHex(getMessageDigest().digest());
            if (!ended || !sha256.equals(entry.sha256())) {
                throw new ParcelRefusedException("hash", entry.path());
            }
        }

        @Override
        public long skip(long n) throws IOException {
            return Math.max(0, read(passing, 0, (int) Math.min(n, passing.length)));
        }
    }
}
