package slowproof.app;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;

/** Days as people type them. */
public final class Days {
    private Days() {}

    /** Returns true for a day as ISO 8601 writes it, such as 2026-11-26; false for an empty text. */
    public static boolean isDay(String text) {
        try {
            return LocalDate.parse(text).toString().equals(text);
        } catch (DateTimeParseException e) {
            return false;
        }
    }
}
