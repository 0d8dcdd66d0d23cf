package slowproof.files.log;

import java.time.DateTimeException;
import java.time.LocalDate;

/**
 * Reads time stamps into seconds: ISO 8601 dates with times ({@code 2026-03-01T06:00:00.250Z}, a space in the place
 * of T allowed), German dates ({@code 01.03.2026 06:00:00,250}), and plain clock times, which run on past midnight.
 * Decimals of seconds may follow a point or a comma. A workbook writes a clock time as one of day 0, 1899-12-30, and it
 * is taken as such. One reading thread.
 *
 * <p>A zone at the end counts: where it changes, as when summer time ends, the stamps run on by what it says. Stamps
 * are told in the zone of the first one that has any; one without a zone is in that of the stamp before.
 */
final class TimeStamps {
    /** An example of each form, for messages. */
    static final String FORMS =
            "2026-03-31T14:05:00.250, 2026-03-31 14:05:00.250, 31.03.2026 14:05:00.250, 14:05:00.250";

    private static final double DAY_S = 86_400;

    /** Day of a clock time in a workbook, where nothing was ever logged. */
    private static final long NO_DAY = LocalDate.of(1899, 12, 30).toEpochDay();

    /** No zone lies further from Greenwich; ISO 8601 libraries draw the same line. */
    private static final int MOST_ZONE_H = 18;

    private long firstDay = Long.MIN_VALUE;
    private double previousClockS = Double.NaN;
    private int midnights;

    /** Seconds east of Greenwich, of the first stamp with a zone and of the last; NaN before any. */
    private double firstZoneS = Double.NaN;

    private double zoneS = Double.NaN;

    /** Returns true when the text looks like a time stamp. */
    static boolean looksLike(String text) {
        return !Double.isNaN(new TimeStamps().seconds(text.toCharArray(), 0, text.length()));
    }

    /**
     * Returns the seconds since midnight before the first stamp, or NaN when the text is no time stamp.
     *
     * @param text characters that hold the stamp
     */
    double seconds(char[] text, int from, int length) {
        int at = from;
        int end = from + length;
        while (at < end && text[at] == ' ') {
            at++;
        }
        while (end > at && text[end - 1] == ' ') {
            end--;
        }
        int colon = at;
        while (colon < end && text[colon] != ':') {
            colon++;
        }
        if (colon == end || colon - at < 1) {
            return Double.NaN;
        }
        int clock = colon - 1;
        while (clock > at && digit(text[clock - 1])) {
            clock--;
        }
        int zone = zoneStart(text, clock, end);
        double seconds = clock(text, clock, zone);
        double east = zone == end ? zoneS : zone(text, zone, end);
        if (Double.isNaN(seconds) || (zone < end && Double.isNaN(east))) {
            return Double.NaN;
        }
        if (clock == at) {
            return runOn(seconds - moved(east));
        }
        char joint = text[clock - 1];
        if ((joint != 'T' && joint != ' ' && joint != 't') || clock - 1 - at < 8) {
            return Double.NaN;
        }
        long day = day(text, at, clock - 1);
        if (day == Long.MIN_VALUE) {
            return Double.NaN;
        }
        if (firstDay == Long.MIN_VALUE) {
            firstDay = day;
        }
        double total = (day - firstDay) * DAY_S + seconds - moved(east);
        return firstDay == NO_DAY ? runOn(total) : total;
    }

    /**
     * Returns the seconds of a clock time since midnight before the first one.
     *
     * @param seconds seconds since midnight of its own day
     */
    double runOn(double seconds) {
        // more than half a day back is the next day; less is a clock that was set back
        if (previousClockS - seconds > DAY_S / 2) {
            midnights++;
        }
        previousClockS = seconds;
        return midnights * DAY_S + seconds;
    }

    /** Returns by how many seconds the zone of a stamp lies east of the first one. */
    private double moved(double east) {
        zoneS = east;
        if (Double.isNaN(firstZoneS)) {
            firstZoneS = east;
        }
        return Double.isNaN(east) ? 0 : east - firstZoneS;
    }

    /** Returns where the zone behind a clock time begins, the end when there is none. */
    private static int zoneStart(char[] text, int from, int end) {
        for (int i = from; i < end; i++) {
            if (text[i] == 'Z' || text[i] == 'z' || text[i] == '+' || text[i] == '-') {
                return i;
            }
        }
        return end;
    }

    /** Reads Z, +h, +hh, +hhmm, +hh:mm or +hh:mm:ss into seconds east of Greenwich; a name in square brackets may follow. */
    private static double zone(char[] text, int from, int end) {
        int to = from;
        while (to < end && text[to] != '[') {
            to++;
        }
        if (text[from] == 'Z' || text[from] == 'z') {
            return to == from + 1 ? 0 : Double.NaN;
        }
        double[] parts = {0, 0, 0};
        int part = 0;
        int digits = 0;
        for (int i = from + 1; i < to; i++) {
            boolean next = text[i] == ':' ? digits > 0 : digits == 2;
            if ((next && part == 2) || (!digit(text[i]) && !next)) {
                return Double.NaN;
            }
            if (next) {
                part++;
                digits = 0;
            }
            if (digit(text[i])) {
                parts[part] = 10 * parts[part] + (text[i] - '0');
                digits++;
            } else if (text[i] != ':') {
                return Double.NaN;
            }
        }
        boolean good = digits > 0 && parts[0] <= MOST_ZONE_H && parts[1] < 60 && parts[2] < 60;
        double seconds = 3600 * parts[0] + 60 * parts[1] + parts[2];
        return good ? (text[from] == '-' ? -seconds : seconds) : Double.NaN;
    }

    private static boolean digit(char c) {
        return c >= '0' && c <= '9';
    }

    /** Reads h:mm, h:mm:ss or h:mm:ss.fff; a space may stand before the zone. */
    private static double clock(char[] text, int from, int zone) {
        int end = zone;
        while (end > from && text[end - 1] == ' ') {
            end--;
        }
        double[] parts = {0, 0, 0};
        int part = 0;
        int digits = 0;
        double scale = 0;
        for (int i = from; i < end; i++) {
            char c = text[i];
            if (digit(c)) {
                digits++;
                if (scale > 0) {
                    parts[2] += (c - '0') * scale;
                    scale /= 10;
                } else {
                    parts[part] = 10 * parts[part] + (c - '0');
                }
            } else if (c == ':' && part < 2 && digits > 0 && scale == 0) {
                part++;
                digits = 0;
            } else if ((c == '.' || c == ',') && part == 2 && digits > 0 && scale == 0) {
                scale = 0.1;
            } else {
                return Double.NaN;
            }
        }
        boolean good = part >= 1 && digits > 0 && parts[0] < 24 && parts[1] < 60 && parts[2] < 61;
        return good ? 3600 * parts[0] + 60 * parts[1] + parts[2] : Double.NaN;
    }

    private static long day(char[] text, int from, int to) {
        int[] parts = {0, 0, 0};
        int part = 0;
        char sign = 0;
        int firstDigits = 0;
        for (int i = from; i < to; i++) {
            char c = text[i];
            if (digit(c)) {
                parts[part] = 10 * parts[part] + (c - '0');
                firstDigits += part == 0 ? 1 : 0;
                if (parts[part] > 9999) {
                    return Long.MIN_VALUE;
                }
            } else if ((c == '-' || c == '.' || c == '/') && part < 2 && (sign == 0 || sign == c)) {
                sign = c;
                part++;
            } else {
                return Long.MIN_VALUE;
            }
        }
        if (part != 2) {
            return Long.MIN_VALUE;
        }
        try {
            if (firstDigits == 4) {
                return LocalDate.of(parts[0], parts[1], parts[2]).toEpochDay();
            }
            // with strokes the order of day and month differs between countries, so it is not guessed
            return sign == '.' ? LocalDate.of(parts[2], parts[1], parts[0]).toEpochDay() : Long.MIN_VALUE;
        } catch (DateTimeException e) {
            return Long.MIN_VALUE;
        }
    }
}
