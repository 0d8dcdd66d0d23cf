package slowproof.report.answer;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The colour profile of a document: sRGB (IEC 61966-2-1) as an ICC profile of version 2 with three primaries and one
 * tone curve. It is made here and not taken from the platform, whose profile differs from one Java to the next, so that
 * the same answer has the same bytes everywhere.
 */
final class SrgbProfile {
    private static final int HEADER = 128;
    private static final int TAG_ENTRY = 12;
    private static final int CURVE_POINTS = 1024;

    /** White of ICC profiles, D50 (ICC.1, 7.2.16; from memory). */
    private static final double[] WHITE = {0.9642, 1.0, 0.8249};

    /** Primaries of sRGB, adapted to D50 by the Bradford transform (from memory). */
    private static final double[] RED = {0.43607, 0.22249, 0.01392};

    private static final double[] GREEN = {0.38515, 0.71687, 0.09708};
    private static final double[] BLUE = {0.14307, 0.06061, 0.71410};

    /** Tags that have the content of the last one before them. */
    private static final String[] SHARED = {"gTRC", "bTRC"};

    private SrgbProfile() {}

    /** Returns the profile. */
    static byte[] bytes() {
        Map<String, byte[]> tags = new LinkedHashMap<>();
        tags.put("desc", description("sRGB"));
        tags.put("cprt", text("No copyright, use freely"));
        tags.put("wtpt", xyz(WHITE));
        tags.put("rXYZ", xyz(RED));
        tags.put("gXYZ", xyz(GREEN));
        tags.put("bXYZ", xyz(BLUE));
        tags.put("rTRC", curve());
        int entries = tags.size() + SHARED.length;
        int offset = HEADER + 4 + TAG_ENTRY * entries;
        ByteArrayOutputStream data = new ByteArrayOutputStream();
        ByteBuffer table = ByteBuffer.allocate(4 + TAG_ENTRY * entries).putInt(entries);
        int at = 0;
        int length = 0;
        for (Map.Entry<String, byte[]> tag : tags.entrySet()) {
            at = offset + data.size();
            length = tag.getValue().length;
            table.put(ascii(tag.getKey())).putInt(at).putInt(length);
            data.writeBytes(tag.getValue());
            data.writeBytes(new byte[(4 - length % 4) % 4]);
        }
        for (String name : SHARED) {
            table.put(ascii(name)).putInt(at).putInt(length);
        }
        int size = offset + data.size();
        return ByteBuffer.allocate(size)
                .put(header(size))
                .put(table.array())
                .put(data.toByteArray())
                .array();
    }

    private static byte[] header(int size) {
        ByteBuffer header = ByteBuffer.allocate(HEADER).putInt(size).position(8);
        header.putInt(0x02400000).put(ascii("mntrRGB XYZ "));
        // a date is asked for: that of IEC 61966-2-1
        for (int part : new int[] {1999, 10, 18, 0, 0, 0}) {
            header.putShort((short) part);
        }
        header.put(ascii("acsp")).position(68);
        for (double part : WHITE) {
            header.putInt(fixed(part));
        }
        return header.array();
    }

    private static byte[] xyz(double[] values) {
        ByteBuffer tag = ByteBuffer.allocate(20).put(ascii("XYZ ")).putInt(0);
        for (double value : values) {
            tag.putInt(fixed(value));
        }
        return tag.array();
    }

    /** The tone curve of IEC 61966-2-1, in 16 bits. */
    private static byte[] curve() {
        ByteBuffer tag = ByteBuffer.allocate(12 + 2 * CURVE_POINTS)
                .put(ascii("curv"))
                .putInt(0)
                .putInt(CURVE_POINTS);
        for (int i = 0; i < CURVE_POINTS; i++) {
            double v = i / (CURVE_POINTS - 1.0);
            double light = v <= 0.04045 ? v / 12.92 : StrictMath.pow((v + 0.055) / 1.055, 2.4);
            tag.putShort((short) Math.round(65535 * light));
        }
        return tag.array();
    }

    private static byte[] text(String words) {
        return ByteBuffer.allocate(8 + words.length() + 1)
                .put(ascii("text"))
                .putInt(0)
                .put(ascii(words))
                .array();
    }

    /** A description has its words in ASCII, and room for two other forms, which stay empty. */
    private static byte[] description(String words) {
        return ByteBuffer.allocate(12 + words.length() + 1 + 8 + 3 + 67)
                .put(ascii("desc"))
                .putInt(0)
                .putInt(words.length() + 1)
                .put(ascii(words))
                .array();
    }

    private static int fixed(double value) {
        return (int) Math.round(value * 65536);
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
