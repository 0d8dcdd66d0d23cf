package slowproof.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingCut;
import slowproof.files.in.RecordingRead;
import slowproof.files.out.WholeFile;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Svg;
import slowproof.report.findings.FindingsCharts;
import slowproof.report.forecast.ForecastCharts;
import slowproof.trial.findings.Findings;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.wording.Wording;

/** The charts of a trial as SVG files in a folder. */
final class ChartFiles {
    /** Size on a page in CSS pixels. */
    private static final int WIDTH = 900;

    private static final int HEIGHT = 480;

    private ChartFiles() {}

    /**
     * Makes the folder when it is not there, before anything else is written.
     *
     * @throws BadInputException if it cannot be made, is no folder or must not be written
     */
    static void prepare(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw refused(folder);
        }
        if (!Files.isWritable(folder)) {
            throw refused(folder);
        }
    }

    private static BadInputException refused(Path folder) {
        return BadInputException.of(
                ProblemCode.FOLDER_NOT_WRITABLE, new SourcePosition(folder.toString(), 0, 0, "--charts"));
    }

    /**
     * Writes one file a chart; files of the same names are replaced.
     *
     * @throws IOException if a file cannot be written
     */
    static void write(Findings findings, Wording wording, Path folder) throws IOException {
        Set<String> taken = new HashSet<>();
        for (FindingsCharts.Drawn drawn : FindingsCharts.of(findings, wording)) {
            String name = FileNames.of(drawn.material(), "material") + "-"
                    + drawn.kind().key();
            write(drawn.chart(), folder.resolve(unique(name, taken) + ".svg"));
        }
    }

    /**
     * Writes a picture of each recording; files of the same names are replaced.
     *
     * @return name of the file by name of the recording
     * @throws IOException if a file cannot be written
     */
    static Map<String, String> write(LoadedTrial loaded, Wording wording, Path folder) throws IOException {
        Map<String, String> files = new LinkedHashMap<>();
        Set<String> taken = new HashSet<>();
        for (RecordingRead recording : loaded.recordings()) {
            RecordingCut cut = recording.cut();
            Chart chart = RecordingPicture.of(loaded, cut, cut.name(), wording);
            String file = unique("recording-" + FileNames.of(cut.name(), "log"), taken) + ".svg";
            write(chart, folder.resolve(file));
            files.put(cut.name(), file);
        }
        return files;
    }

    private static String unique(String name, Set<String> taken) {
        String unique = name;
        for (int next = 2; !taken.add(unique); next++) {
            unique = name + "-" + next;
        }
        return unique;
    }

    private static void write(Chart chart, Path file) throws IOException {
        byte[] svg = Svg.headed(chart, WIDTH, HEIGHT).getBytes(StandardCharsets.UTF_8);
        WholeFile.write(file, stream -> stream.write(svg));
    }

    /**
     * Writes the charts of a forecast, one file each; files of the same names are replaced.
     *
     * @throws IOException if a file cannot be written
     */
    static void write(Forecast forecast, long seed, Wording wording, Path folder) throws IOException {
        for (Map.Entry<String, Chart> drawn :
                ForecastCharts.of(forecast, seed, wording).entrySet()) {
            write(drawn.getValue(), folder.resolve("line-" + drawn.getKey() + ".svg"));
        }
    }
}
