package slowproof.archive;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Kinds of event in the life of a trial. */
public enum EventKind {
    /** The trial was started. */
    STARTED,
    /** A fact about the trial was noted or changed: fields {@code name}, {@code text}, and how it was typed. */
    FACT,
    /** A series of moves was started at a material, speed and acceleration. */
    SERIES,
    /** A reading was taken at standstill. */
    READING,
    /** A pass got a remark: fields {@code reading}, {@code text}. */
    COMMENT,
    /** A pass was left out by a person: fields {@code reading}, {@code text}, the reason; empty takes it in again. */
    SPOILED,
    /** A photo was added: fields {@code sha256}, {@code name}, {@code type}, {@code bytes}. */
    PHOTO,
    /** A log was kept: fields {@code sha256}, {@code name} as the trial file names it, {@code bytes}. */
    LOG,
    /** Recordings were taken in: field {@code trial}, a trial file that names logs kept before and how they are read. */
    RECORDINGS,
    /** A written answer was released: fields {@code sha256}, {@code name}, {@code bytes} and those of a released answer. */
    ANSWER,
    /** An earlier event was taken back: field {@code seq}. Taking back an undo brings the event back. */
    UNDO;

    /** Returns the word written in the archive, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the kind of a word of the archive. */
    static EventKind of(String key) {
        return find(key).orElseThrow(() -> new IllegalArgumentException("no kind of event: " + key));
    }

    /** Returns the kind of a written word, or empty when there is none. */
    public static Optional<EventKind> find(String key) {
        return Arrays.stream(values()).filter(kind -> kind.key().equals(key)).findFirst();
    }
}
