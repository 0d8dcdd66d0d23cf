package slowproof.files.log;

import java.nio.charset.Charset;
import org.jspecify.annotations.Nullable;

/**
 * How a log is written, as far as the trial says; null for what is to be recognised.
 *
 * @param separator sign between cells
 * @param decimal decimal sign, {@code '.'} or {@code ','}; a comma may be the separator too, if numbers stand in quotes
 * @param headerRows lines above the data, comments not counted; 0 for none
 * @param encoding encoding of the text
 * @param comment sign at the start of lines that are no data
 */
public record Dialect(
        @Nullable Character separator,
        @Nullable Character decimal,
        @Nullable Integer headerRows,
        @Nullable Charset encoding,
        @Nullable Character comment) {
    /** Everything is recognised. */
    public static final Dialect RECOGNISED = new Dialect(null, null, null, null, null);

    /** Returns the decimal sign of numbers that are kept as text in a workbook or a Parquet file: a point unless stated. */
    char decimalOrPoint() {
        return decimal == null ? '.' : decimal;
    }

    /** Returns the dialect of a workbook's sheet as text, see {@link SheetReader}, as far as this one states it. */
    Dialect ofSheet() {
        return new Dialect('\t', decimalOrPoint(), headerRows, null, comment);
    }

    /** Checks the parts. */
    public Dialect {
        if (decimal != null && decimal != '.' && decimal != ',') {
            throw new IllegalArgumentException("the decimal sign is a point or a comma, found " + decimal);
        }
        if (decimal != null && decimal == '.' && decimal.equals(separator)) {
            throw new IllegalArgumentException("separator and decimal sign are the same: " + decimal);
        }
        if (headerRows != null && headerRows < 0) {
            throw new IllegalArgumentException("header rows count from 0, found " + headerRows);
        }
    }
}
