package slowproof.app.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Logs that were sent and not kept yet: a folder for each sending, a number for each file, its name beside it. A file
 * streams through to the disk and is never whole in memory; the name that the browser tells is only ever text.
 */
final class UploadStore {
    private static final long USUAL_LIMIT = 2L << 30;
    private static final String LIMIT_MIB = "slowproof.upload.mib";

    private static final Pattern ID = Pattern.compile("[0-9a-f]{32}");
    private static final int MOST_FILES = 40;
    private static final int LONGEST_NAME = 120;
    private static final int BUFFER = 1 << 16;
    private static final long ROOM_LEFT = 256L << 20;
    private static final Duration KEPT = Duration.ofDays(2);
    private static final String LOG = ".log";
    private static final String NAME = ".name";

    private final Supplier<Path> folder;
    private final long limit;

    UploadStore(Supplier<Path> folder, long limit) {
        this.folder = folder;
        this.limit = limit;
    }

    /**
     * A file that was sent.
     *
     * @param number its number in the sending, from 1
     * @param name its name as the person knows it, without folders, unique in the sending
     * @param bytes its size in bytes
     * @param sha256 fingerprint of its content
     * @param path where it lies
     */
    record Log(int number, String name, long bytes, String sha256, Path path) {}

    /** Returns the bytes that one sending may hold: 2 GiB, or as many MiB as the system property says. */
    static long usualLimit() {
        Integer mib = Integer.getInteger(LIMIT_MIB);
        return mib == null || mib < 1 ? USUAL_LIMIT : (long) mib << 20;
    }

    /** Returns the bytes that one sending may hold. */
    long limit() {
        return limit;
    }

    /** Returns the folder of a sending, whether it exists or not; empty when that is no name of one. */
    Optional<Path> folder(String id) {
        return ID.matcher(id).matches() ? Optional.of(folder.get().resolve(id)) : Optional.empty();
    }

    /** Returns the files of a sending in the order of their numbers; none when there is no such sending. */
    List<Log> logs(String id) {
        Optional<Path> own = folder(id);
        if (own.isEmpty() || !Files.isDirectory(own.get())) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(own.get())) {
            List<Log> logs = new ArrayList<>();
            for (Path file : (Iterable<Path>) files::iterator) {
                String name = String.valueOf(file.getFileName());
                if (name.endsWith(NAME)) {
                    logs.add(log(file, Integer.parseInt(name.substring(0, name.length() - NAME.length()))));
                }
            }
            logs.sort(Comparator.comparingInt(Log::number));
            return logs;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Log log(Path named, int number) throws IOException {
        String[] facts = Files.readString(named).split("\n", 2);
        Path path = named.resolveSibling(number + LOG);
        return new Log(number, facts[1], Files.size(path), facts[0], path);
    }

    /**
     * Takes a file in.
     *
     * @param id name of the sending
     * @param name name that the browser tells, with or without folders
     * @param announced size that the browser tells, in bytes; less than 0 when it tells none
     * @param content content, read to its end
     * @throws UploadRefusedException if it is too large, empty, one too many, or the disk has no room
     * @throws IOException if it breaks off, or cannot be written
     */
    Log take(String id, String name, long announced, InputStream content) throws IOException, UploadRefusedException {
        Path own = folder(id).orElseThrow(() -> new UploadRefusedException("upload.refused.unknown"));
        List<Log> before = logs(id);
        long room = limit - before.stream().mapToLong(Log::bytes).sum();
        if (before.size() >= MOST_FILES) {
            throw new UploadRefusedException("upload.refused.many", MOST_FILES);
        }
        if (announced > room) {
            throw tooLarge();
        }
        Files.createDirectories(own);
        if (Files.getFileStore(own).getUsableSpace() < Math.max(announced, 0) + ROOM_LEFT) {
            throw new UploadRefusedException("upload.refused.disk");
        }
        int number = before.isEmpty() ? 1 : before.get(before.size() - 1).number() + 1;
        Path part = Files.createTempFile(own, "draft-", ".part");
        try {
            String sha256 = write(content, part, room);
            if (Files.size(part) == 0) {
                throw new UploadRefusedException("upload.refused.empty", plain(name));
            }
            // the name comes last: a log without one is none yet
            Files.move(part, own.resolve(number + LOG), StandardCopyOption.ATOMIC_MOVE);
            Path named = own.resolve(number + NAME);
            Files.writeString(named, sha256 + "\n" + unique(plain(name), before));
            return log(named, number);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private UploadRefusedException tooLarge() {
        return new UploadRefusedException("upload.refused.large", limit >> 20);
    }

    private String write(InputStream content, Path part, long room) throws IOException, UploadRefusedException {
        MessageDigest digest = sha256();
        byte[] buffer = new byte[BUFFER];
        long left = room;
        try (OutputStream out = Files.newOutputStream(part, StandardOpenOption.WRITE)) {
            for (int read = content.read(buffer); read >= 0; read = content.read(buffer)) {
                left -= read;
                if (left < 0) {
                    throw tooLarge();
                }
                digest.update(buffer, 0, read);
                out.write(buffer, 0, read);
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** A name is shown and written into a trial, never used as a path; folders and control characters go. */
    static String plain(String name) {
        String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
        String clean = last.replaceAll("\\p{Cntrl}|\\p{Cf}", "").strip();
        String some = clean.isEmpty() || clean.matches("\\.+") ? "log" : clean;
        return some.length() > LONGEST_NAME ? some.substring(some.length() - LONGEST_NAME) : some;
    }

    private static String unique(String name, List<Log> before) {
        int dot = name.indexOf('.', 1);
        String base = dot < 0 ? name : name.substring(0, dot);
        String ending = dot < 0 ? "" : name.substring(dot);
        String one = name;
        for (int next = 2; taken(one, before); next++) {
            one = base + "-" + next + ending;
        }
        return one;
    }

    private static boolean taken(String name, List<Log> before) {
        return before.stream().anyMatch(log -> log.name().equals(name));
    }

    /** Removes one file of a sending; nothing happens when it is not there. */
    void remove(String id, int number) throws IOException {
        Optional<Path> own = folder(id);
        if (own.isPresent()) {
            Files.deleteIfExists(own.get().resolve(number + NAME));
            Files.deleteIfExists(own.get().resolve(number + LOG));
        }
    }

    /** Removes a sending with all its files. */
    void removeAll(String id) throws IOException {
        Optional<Path> own = folder(id);
        if (own.isPresent() && Files.isDirectory(own.get())) {
            empty(own.get());
            Files.delete(own.get());
        }
    }

    private static void empty(Path own) throws IOException {
        try (Stream<Path> files = Files.list(own)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Files.delete(file);
            }
        }
    }

    /** Removes sendings that nobody has touched for two days. */
    void tidy(Instant now) throws IOException {
        if (!Files.isDirectory(folder.get())) {
            return;
        }
        try (Stream<Path> all = Files.list(folder.get())) {
            for (Path own : (Iterable<Path>) all::iterator) {
                String id = String.valueOf(own.getFileName());
                if (ID.matcher(id).matches()
                        && Files.getLastModifiedTime(own).toInstant().isBefore(now.minus(KEPT))) {
                    removeAll(id);
                }
            }
        }
    }
}
