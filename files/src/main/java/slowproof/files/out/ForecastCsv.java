package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import slowproof.trial.forecast.Forecast;
import slowproof.wording.Wording;

/** Writes the figures of a forecast as values separated by commas (RFC 4180), numbers with a point and in full. */
public final class ForecastCsv {
    private ForecastCsv() {}

    /**
     * Writes the file, whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(Forecast forecast, Wording wording, Path file) throws IOException {
        WholeFile.write(file, stream -> write(forecast, wording, stream));
    }

    /**
     * Writes the table to a stream, which stays open.
     *
     * @throws IOException if the stream fails
     */
    public static void write(Forecast forecast, Wording wording, OutputStream stream) throws IOException {
        Sheet sheet = new ForecastSheets(forecast, wording).figures();
        TableCsv.write(sheet.headings(), sheet.rows(), stream);
    }
}
