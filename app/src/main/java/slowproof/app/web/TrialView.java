package slowproof.app.web;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.app.RecordingPicture;
import slowproof.archive.sheet.SheetReading;
import slowproof.archive.sheet.SheetSeries;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingRead;
import slowproof.report.chart.Chart;
import slowproof.report.chart.PlotJson;
import slowproof.report.findings.FindingsCharts;
import slowproof.trial.Trial;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Note;
import slowproof.wording.Wording;

/**
 * What the page of a trial shows.
 *
 * @param evaluated the sheet and what it says
 * @param title title
 * @param answers the answer in plain words, a line a surface
 * @param sentences one sentence a condition, speed ascending
 * @param replies the answer to paste into a mail, a language each
 * @param missing what keeps it from a decision: limit, reference, acceleration
 * @param surfaces charts and conditions, one a surface
 * @param recordings pictures of its recordings
 * @param unreadable why its recordings cannot be read
 * @param notes remarks
 * @param facts facts as a form
 * @param token name of the forms, so that sending one twice counts once
 */
public record TrialView(
        Evaluated evaluated,
        String title,
        List<Answers.Line> answers,
        List<Sentence> sentences,
        List<Reply> replies,
        List<String> missing,
        List<Surface> surfaces,
        List<Plot> recordings,
        List<String> unreadable,
        List<Remark> notes,
        FactForm facts,
        String token) {
    /**
     * The answer about one condition.
     *
     * @param condition the condition
     * @param text the sentence
     */
    public record Sentence(Condition condition, String text) {}

    /**
     * The answer to paste into a mail.
     *
     * @param language en or de
     * @param text the answer
     */
    public record Reply(String language, String text) {}

    /**
     * A remark.
     *
     * @param where what it speaks of, empty for the whole trial
     * @param text the sentence
     */
    public record Remark(String where, String text) {}

    /**
     * Charts and conditions of one surface.
     *
     * @param material surface
     * @param finding the finding as a title
     * @param plots charts
     */
    public record Surface(String material, String finding, List<Plot> plots) {
        /** Copies the list. */
        public Surface {
            plots = List.copyOf(plots);
        }
    }

    /**
     * A chart.
     *
     * @param title what it shows
     * @param description what it says, in words
     * @param data its description for the painter, as JSON
     */
    public record Plot(String title, String description, String data) {}

    /** Copies the lists. */
    public TrialView {
        answers = List.copyOf(answers);
        sentences = List.copyOf(sentences);
        replies = List.copyOf(replies);
        missing = List.copyOf(missing);
        surfaces = List.copyOf(surfaces);
        recordings = List.copyOf(recordings);
        unreadable = List.copyOf(unreadable);
        notes = List.copyOf(notes);
    }

    static TrialView of(Evaluated evaluated, Wording wording, ZoneId zone, FactForm facts) {
        String title = TrialPage.title(evaluated.sheet(), wording, zone);
        String token = Visit.random();
        List<String> unreadable =
                evaluated.problems().stream().map(wording::problem).toList();
        if (!evaluated.hasFindings()) {
            return new TrialView(
                    evaluated,
                    title,
                    List.of(),
                    List.of(),
                    List.of(),
                    List.of(),
                    List.of(),
                    List.of(),
                    unreadable,
                    List.of(),
                    facts,
                    token);
        }
        Findings findings = evaluated.said();
        Trial trial = findings.trial();
        List<Answers.Line> answers = Answers.floors(findings, wording);
        List<Sentence> sentences = new ArrayList<>();
        List<FindingsCharts.Drawn> charts = FindingsCharts.of(findings, wording);
        List<Surface> surfaces = new ArrayList<>();
        for (Answers.Line answer : answers) {
            List<Condition> leading = findings.leading(answer.about());
            leading.forEach(one -> sentences.add(new Sentence(one, Answers.condition(one, trial, wording))));
            surfaces.add(new Surface(answer.about(), answer.sentence(), plots(charts, answer.about())));
        }
        List<Remark> notes =
                findings.notes().stream().map(note -> remark(note, wording)).toList();
        return new TrialView(
                evaluated,
                title,
                answers,
                sentences,
                replies(findings, wording),
                Answers.missing(trial),
                surfaces,
                recordings(evaluated, wording),
                unreadable,
                notes,
                facts,
                token);
    }

    private static List<Reply> replies(Findings findings, Wording wording) {
        List<Reply> replies = new ArrayList<>();
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            String text = slowproof.wording.Reply.of(findings, Wording.of(language, wording.units()));
            replies.add(new Reply(language.getLanguage(), text));
        }
        // the reader's own language first
        if (wording.locale().getLanguage().equals("de")) {
            Collections.reverse(replies);
        }
        return replies;
    }

    private static Remark remark(Note note, Wording wording) {
        return new Remark(wording.where(note), wording.note(note));
    }

    private static List<Plot> recordings(Evaluated evaluated, Wording wording) {
        LoadedTrial loaded = evaluated.recordings();
        if (loaded == null) {
            return List.of();
        }
        List<Plot> plots = new ArrayList<>();
        for (RecordingRead read : loaded.recordings()) {
            Chart chart = RecordingPicture.of(loaded, read.cut(), read.file(), wording);
            plots.add(new Plot(chart.title(), chart.description(), PlotJson.of(chart)));
        }
        return plots;
    }

    private static List<Plot> plots(List<FindingsCharts.Drawn> charts, String material) {
        return charts.stream()
                .filter(drawn -> drawn.material().equals(material))
                .map(FindingsCharts.Drawn::chart)
                .map(chart -> new Plot(chart.title(), chart.description(), PlotJson.of(chart)))
                .toList();
    }

    /** Returns the reading that ended a pass, or null. */
    public @Nullable SheetReading reading(Pass pass) {
        Long seq = evaluated.meaning().readingOfPass().get(pass.id());
        for (SheetSeries series : evaluated.sheet().series()) {
            for (SheetReading reading : series.readings()) {
                if (seq != null && reading.seq() == seq) {
                    return reading;
                }
            }
        }
        return null;
    }
}
