package slowproof.files.log;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.KeyText;
import slowproof.trial.recording.BreakRule;
import slowproof.trial.recording.SensorScale;

/**
 * What is wanted of a log.
 *
 * @param name what messages call the file
 * @param part what it is read for
 * @param columns which column holds what
 * @param dialect how it is written
 * @param scale how counts become mm
 * @param circumferenceMm circumference of the reference roll in mm, for angles whose column names none; or null
 * @param breaks when rows count as missing
 */
public record LogRequest(
        String name,
        LogPart part,
        ColumnMapping columns,
        Dialect dialect,
        SensorScale scale,
        @Nullable Double circumferenceMm,
        BreakRule breaks) {
    /** Checks the parts. */
    public LogRequest {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(part, "part");
    }

    /**
     * Returns all that decides which numbers come out of a file: two requests with the same one read the same columns
     * from the same bytes.
     */
    public String readingKey() {
        KeyText key = new KeyText().add(name).add(part);
        for (ColumnRole role : ColumnRole.values()) {
            ColumnSource source = columns.columns().get(role);
            if (source != null) {
                key.add(role)
                        .add(source.heading())
                        .add(source.number())
                        .add(source.unit())
                        .add(source.circumferenceMm())
                        .add(source.threshold());
            }
        }
        return key.add(dialect.separator())
                .add(dialect.decimal())
                .add(dialect.headerRows())
                .add(dialect.encoding())
                .add(dialect.comment())
                .add(circumferenceMm)
                .toString();
    }

    /** Returns the request for a log of one clock in which everything is recognised. */
    public static LogRequest of(String name, SensorScale scale) {
        return new LogRequest(
                name, LogPart.BOTH, ColumnMapping.RECOGNISED, Dialect.RECOGNISED, scale, null, BreakRule.DEFAULT);
    }

    /** Returns the same request for another part. */
    public LogRequest as(LogPart other) {
        return new LogRequest(name, other, columns, dialect, scale, circumferenceMm, breaks);
    }

    /** Returns the same request with a mapping. */
    public LogRequest with(ColumnMapping other) {
        return new LogRequest(name, part, other, dialect, scale, circumferenceMm, breaks);
    }

    /** Returns the same request with a dialect. */
    public LogRequest with(Dialect other) {
        return new LogRequest(name, part, columns, other, scale, circumferenceMm, breaks);
    }
}
