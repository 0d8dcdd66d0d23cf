package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import slowproof.app.text.RecordingsText;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingRead;
import slowproof.trial.RecordedPass;
import slowproof.trial.input.InputProblem;
import slowproof.wording.Wording;

/**
 * What came of logs that were sent: still being read, refused, or passes.
 *
 * @param id name of the sending
 * @param running true while the logs are being read
 * @param seconds how long that has taken so far, in s
 * @param problems what is wrong with the logs, with line and column
 * @param questions what may be a slip and can be confirmed
 * @param sorry what went wrong otherwise, empty when nothing did
 * @param recordings the recordings with their passes
 * @param facts facts about the trial to be typed
 */
public record UploadPassesView(
        String id,
        boolean running,
        long seconds,
        List<String> problems,
        List<Question> questions,
        String sorry,
        List<Recording> recordings,
        List<FactForm.Field> facts) {
    /** The facts that are asked for beside the passes; all others can be noted once the trial is kept. */
    static final List<FactName> FACTS = List.of(
            FactName.TITLE,
            FactName.LIMIT_PERCENT,
            FactName.LIMIT_LENGTH,
            FactName.REFERENCE_UNCERTAINTY,
            FactName.REFERENCE_PPM,
            FactName.REFERENCE_KIND,
            FactName.REFERENCE_NAME,
            FactName.SENSOR_NAME,
            FactName.SENSOR_SERIAL,
            FactName.RESOLUTION);

    /** Copies the lists. */
    public UploadPassesView {
        problems = List.copyOf(problems);
        questions = List.copyOf(questions);
        recordings = List.copyOf(recordings);
        facts = List.copyOf(facts);
    }

    /**
     * A question about a likely slip.
     *
     * @param field field that confirms it
     * @param text the question
     */
    public record Question(String field, String text) {}

    /**
     * A recording that was cut into passes.
     *
     * @param index its number from 0, by which its speeds are asked for
     * @param prefix beginning of its fields
     * @param name name of its log
     * @param material surface as typed
     * @param speed programmed speed as typed
     * @param acceleration programmed acceleration as typed
     * @param sentences how it was read, brought together and cut
     * @param around ends, passes and gaps as JSON for the drawing
     * @param passes its passes
     */
    public record Recording(
            int index,
            String prefix,
            String name,
            String material,
            String speed,
            String acceleration,
            List<String> sentences,
            String around,
            List<Row> passes) {
        /** Copies the lists. */
        public Recording {
            sentences = List.copyOf(sentences);
            passes = List.copyOf(passes);
        }
    }

    /**
     * A pass.
     *
     * @param number its number in the recording, from 1
     * @param fromS start in s
     * @param toS end in s
     * @param from start as shown, in s
     * @param reference travel by the reference as shown
     * @param indication travel by the sensor as shown
     * @param error error as shown
     * @param percent error in percent as shown
     * @param speed plateau speed as shown
     * @param dropout dropout share in percent as shown, or a dash
     * @param flags what is doubtful, in words
     */
    public record Row(
            int number,
            double fromS,
            double toS,
            String from,
            String reference,
            String indication,
            String error,
            String percent,
            String speed,
            String dropout,
            List<String> flags) {
        /** Copies the list. */
        public Row {
            flags = List.copyOf(flags);
        }
    }

    /** Returns true when there are passes to keep. */
    public boolean isDone() {
        return !recordings.isEmpty();
    }

    static UploadPassesView of(
            String id, UploadForm form, UploadJobs.Job job, Wording wording, Sheet blank, Map<String, String> facts) {
        List<String> problems = new ArrayList<>();
        List<Question> questions = new ArrayList<>();
        for (InputProblem problem : job.problems()) {
            if (problem.code().isQuestion()) {
                questions.add(new Question("confirm_" + problem.code().key(), wording.problem(problem)));
            } else {
                problems.add(wording.problem(problem));
            }
        }
        LoadedTrial loaded = job.loaded();
        return new UploadPassesView(
                id,
                job.running(),
                job.takes().toSeconds(),
                problems,
                questions,
                job.sorry().isEmpty() ? "" : wording.text(job.sorry()),
                loaded == null ? List.of() : recordings(form, loaded, wording),
                FactForm.of(blank, facts).groups().stream()
                        .flatMap(group -> group.fields().stream())
                        .filter(field -> FACTS.contains(field.name()))
                        .toList());
    }

    private static List<Recording> recordings(UploadForm form, LoadedTrial loaded, Wording wording) {
        List<Recording> recordings = new ArrayList<>();
        List<UploadStore.Log> logs = form.recordings();
        for (int index = 0; index < loaded.recordings().size(); index++) {
            RecordingRead read = loaded.recordings().get(index);
            UploadStore.Log log = logs.get(index);
            List<RecordedPass> passes = loaded.trial().recorded().stream()
                    .filter(pass -> pass.recording().equals(read.cut().name()))
                    .toList();
            recordings.add(new Recording(
                    index,
                    UploadForm.of(log, ""),
                    log.name(),
                    form.text(UploadForm.of(log, "material")),
                    form.text(UploadForm.of(log, "speed")),
                    form.text(UploadForm.of(log, "acceleration")),
                    RecordingsText.sentences(loaded, read, wording),
                    UploadTrace.around(read.cut(), passes, wording),
                    rows(passes, wording)));
        }
        return recordings;
    }

    private static List<Row> rows(List<RecordedPass> passes, Wording wording) {
        List<Row> rows = new ArrayList<>();
        for (RecordedPass pass : passes) {
            double errorMm = Math.signum(pass.referenceMm()) * (pass.indicationMm() - pass.referenceMm());
            Double dropout = pass.dropoutPercent();
            rows.add(new Row(
                    rows.size() + 1,
                    pass.startS(),
                    pass.endS(),
                    wording.numbers().fixed(pass.startS(), 1),
                    wording.numbers().signed(pass.referenceMm(), 2),
                    wording.numbers().signed(pass.indicationMm(), 2),
                    wording.numbers().signed(errorMm, 2),
                    wording.numbers().signed(100 * errorMm / Math.abs(pass.referenceMm()), 3),
                    wording.units().speedNumber(pass.plateauSpeedMmPerS(), wording.numbers()),
                    dropout == null
                            ? wording.text("figure.absent")
                            : wording.numbers().fixed(dropout, 1),
                    pass.flags().stream().map(wording::flag).toList()));
        }
        return rows;
    }
}
