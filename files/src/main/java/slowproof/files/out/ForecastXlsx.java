package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import slowproof.trial.forecast.Forecast;
import slowproof.wording.Wording;

/** Writes answer, figures, contributions, changes, corrections, gaps and travel of a forecast as sheets of a workbook. */
public final class ForecastXlsx {
    private ForecastXlsx() {}

    /**
     * Writes the file, whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(Forecast forecast, Wording wording, Path file) throws IOException {
        WholeFile.write(file, stream -> write(forecast, wording, stream));
    }

    /**
     * Writes the workbook to a stream, which stays open.
     *
     * @throws IOException if the stream fails
     */
    public static void write(Forecast forecast, Wording wording, OutputStream stream) throws IOException {
        SheetXlsx.write(new ForecastSheets(forecast, wording).all(), stream);
    }
}
