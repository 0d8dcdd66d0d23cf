package slowproof.files.log;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;

/** What a file can be that is no log, with the first bytes that tell; the words for it are in the message bundles. */
enum ForeignKind {
    /** PNG, JPEG, GIF, TIFF. */
    PICTURE("89504e470d0a1a0a", "ffd8ff", "474946383761", "474946383961", "49492a00", "4d4d002a"),
    PDF("255044462d"),
    /** For Linux, for Windows, for a virtual machine of Java. */
    PROGRAM("7f454c46", "4d5a9000", "cafebabe"),
    /** RAR, 7z, xz, Zstandard, a ZIP archive without content or in parts, and tar. */
    ARCHIVE("526172211a07", "377abcaf271c", "fd377a585a00", "28b52ffd", "504b0506", "504b0708"),
    /** A workbook before XLSX, or one that is locked by a password. */
    OLD_WORKBOOK("d0cf11e0a1b11ae1"),
    /** A ZIP archive, in which workbooks come, without one that can be read. */
    ZIP,
    /** A page of the web or another text in marks; see {@link MarkedText}. */
    MARKUP,
    /** Names and values in brackets; see {@link MarkedText}. */
    JSON,
    /** Nothing that is known by name. */
    BYTES;

    /** The header of a tar archive begins with a name and says further down what it is. */
    private static final int TAR_AT = 257;

    private static final String TAR = "7573746172";

    private final String[] beginnings;

    ForeignKind(String... beginnings) {
        this.beginnings = beginnings;
    }

    /** Returns true for a file that begins as this kind does; those without a beginning of their own never do. */
    boolean begins(byte[] start) {
        for (String beginning : beginnings) {
            if (stands(beginning, start, 0)) {
                return true;
            }
        }
        return this == ARCHIVE && stands(TAR, start, TAR_AT);
    }

    private static boolean stands(String digits, byte[] start, int from) {
        byte[] wanted = HexFormat.of().parseHex(digits);
        return start.length >= from + wanted.length
                && Arrays.equals(start, from, from + wanted.length, wanted, 0, wanted.length);
    }

    /** Returns the key as it stands in the message bundles. */
    String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
