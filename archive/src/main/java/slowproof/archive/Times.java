package slowproof.archive;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Writes times as they stand in the database: UTC, to the microsecond, always of the same length, so that they sort as texts. */
public final class Times {
    private static final DateTimeFormatter FORM = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSSSSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private Times() {}

    /** Returns the text of a time; what is shorter than a microsecond is dropped. */
    public static String text(Instant time) {
        return FORM.format(time);
    }
}
