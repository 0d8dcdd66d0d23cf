package slowproof.app.text;

import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.SourceFile;
import slowproof.files.out.Envelope;
import slowproof.report.answer.Block;
import slowproof.report.findings.FindingsCharts;
import slowproof.trial.Certificate;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Setup;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.Pass;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.note.Note;
import slowproof.trial.note.Quantity;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** Everything a written answer says, part by part: the answer on the first page, what it rests on, every pass. */
public final class AnswerText {
    private static final String[] METHODS = {
        "error", "scatter", "uncertainty", "decision", "curve", "outliers", "rounding"
    };

    /** Reporting items in the order of ISO/IEC 17025:2017, 7.8; the clause was not at hand, the items are from memory. */
    private static final String[] ITEMS = {
        "title",
        "lab",
        "method",
        "object",
        "dates",
        "sampling",
        "results",
        "deviations",
        "release",
        "uncertainty",
        "traceability",
        "decision",
        "only",
        "opinions",
        "amendment"
    };

    private final LoadedTrial loaded;
    private final Findings findings;
    private final Envelope envelope;
    private final Wording wording;
    private final Numbers numbers;
    private final DocumentPage page = new DocumentPage();
    private final @Nullable LineSection line;

    private AnswerText(Subject subject, Wording wording) {
        this.loaded = subject.loaded();
        this.findings = subject.findings();
        this.envelope = subject.envelope();
        this.wording = wording;
        this.numbers = wording.numbers();
        Forecast forecast = subject.forecast();
        this.line = forecast == null
                ? null
                : new LineSection(forecast, subject.lineNotes(), Evaluation.USUAL_SEED, wording, page);
    }

    /**
     * What the answer is about.
     *
     * @param loaded trial as read, with the files of the line where there is one
     * @param findings its findings
     * @param forecast pieces on a line, or null
     * @param lineNotes how the speed log of the line was read; empty without one
     * @param envelope what made them
     */
    public record Subject(
            LoadedTrial loaded,
            Findings findings,
            @Nullable Forecast forecast,
            List<Note> lineNotes,
            Envelope envelope) {
        /** Copies the list. */
        public Subject {
            lineNotes = List.copyOf(lineNotes);
        }
    }

    /**
     * Returns the parts.
     *
     * @param subject what it is about
     * @param changes what changed against a document that this one supersedes; empty for none
     * @param wording wording with the sentences of the answer
     */
    public static List<Block> of(Subject subject, List<Block> changes, Wording wording) {
        return new AnswerText(subject, wording).write(changes);
    }

    /** Returns the title of the trial as the document's title. */
    public static String title(Findings findings, Wording wording) {
        String title = findings.trial().title();
        return wording.text("written.title", title.isEmpty() ? wording.text("written.untitled") : Wording.shown(title));
    }

    private List<Block> write(List<Block> changes) {
        page.title(title(findings, wording));
        FindingsText.document(
                findings,
                wording,
                page,
                new FindingsText.Additions(
                        () -> {
                            if (line != null) {
                                line.answer();
                            }
                        },
                        () -> {
                            validity();
                            changes.forEach(page::add);
                            asked();
                            setup();
                            traceability();
                        },
                        material -> charts(material.material()),
                        () -> {
                            if (line != null) {
                                line.section();
                            }
                        }));
        RecordingsText.write(loaded, wording, page);
        method();
        record();
        items();
        annex();
        return page.blocks();
    }

    private String say(String key, Object... arguments) {
        return wording.text("written." + key, arguments);
    }

    private void validity() {
        page.heading(say("validity"));
        for (String part : new String[] {"scope", "rule", "standing"}) {
            page.paragraph(say("validity." + part));
        }
    }

    private void asked() {
        page.heading(say("asked"));
        List<String> scopes = new ArrayList<>();
        findings.materials().forEach(material -> {
            DoubleSummaryStatistics speeds = findings.conditionsOf(material.material()).stream()
                    .mapToDouble(condition -> condition.key().speedMmPerS())
                    .summaryStatistics();
            if (speeds.getCount() > 0) {
                scopes.add(say(
                        "scope",
                        Wording.shown(material.material()),
                        Quantity.mmPerS(speeds.getMin()),
                        Quantity.mmPerS(speeds.getMax())));
            }
        });
        String scope = String.join("; ", scopes);
        Limit limit = findings.trial().limit();
        page.labelled(
                say("asked.question"),
                0,
                limit == null
                        ? say("asked.screening", scope)
                        : say("asked.limit", FindingsText.limit(limit, wording), scope));
        if (line != null) {
            line.question();
        }
        List<LocalDateTime> times = findings.passes().stream()
                .map(Pass::time)
                .filter(Objects::nonNull)
                .sorted()
                .toList();
        if (!times.isEmpty()) {
            page.labelled(
                    say("asked.when"),
                    0,
                    say("asked.when.says", time(times.get(0)), time(times.get(times.size() - 1))));
        }
    }

    /** Date and time to the minute, as ISO 8601 has them. */
    private static String time(LocalDateTime time) {
        return time.truncatedTo(ChronoUnit.MINUTES).toString().replace('T', ' ');
    }

    private void setup() {
        page.heading(say("setup"));
        Sensor sensor = findings.trial().sensor();
        Setup setup = findings.trial().setup();
        int before = page.blocks().size();
        words("sensor", sensor.name());
        words("serial", sensor.serial());
        value("count", sensor.distancePerCountMm(), " mm");
        value("step", sensor.readingResolutionMm(), " mm");
        Integer bits = sensor.counterBits();
        value("counter", bits == null ? null : Double.valueOf(bits), " bit");
        words("name", setup.name());
        words("firmware", setup.firmware());
        words("parameters", setup.parameters());
        words("window", setup.window());
        value("distance", setup.workingDistanceMm(), " mm");
        value("misalignment", setup.misalignmentDegrees(), "\u00b0");
        value("abbe", setup.abbeOffsetMm(), " mm");
        value("abbe_angle", setup.abbeAngleDegrees(), "\u00b0");
        Double halfWidth = setup.temperatureHalfWidthC();
        value(
                "temperature",
                setup.temperatureMeanC(),
                (halfWidth == null ? "" : " \u00b1 " + numbers.plain(halfWidth)) + " \u00b0C");
        value("expansion", setup.expansionPpmPerK(), " ppm/K");
        value("latency", setup.latencyS(), " s");
        if (page.blocks().size() == before) {
            page.paragraph(say("setup.none"));
        }
    }

    private void words(String key, String text) {
        if (!text.isEmpty()) {
            page.labelled(say("setup." + key), 0, Wording.shown(text));
        }
    }

    private void value(String key, @Nullable Double value, String unit) {
        if (value != null) {
            page.labelled(say("setup." + key), 0, numbers.plain(value) + unit);
        }
    }

    private void traceability() {
        page.heading(say("traceability"));
        Reference reference = findings.trial().reference();
        Certificate certificate = reference.certificate();
        page.labelled(say("traceability.reference"), 0, FindingsText.reference(reference, wording));
        certified("number", certificate.number());
        certified("issued_by", certificate.issuedBy());
        certified("date", certificate.date());
        certified("traceable_to", certificate.traceableTo());
        String standing = !reference.hasUncertainty() ? "unknown" : certificate.isEmpty() ? "stated" : "certificate";
        page.paragraph(say("traceability." + standing));
    }

    private void certified(String key, String text) {
        if (!text.isEmpty()) {
            page.labelled(say("certificate." + key), 0, Wording.shown(text));
        }
    }

    private void charts(String material) {
        List<FindingsCharts.Drawn> charts = FindingsCharts.of(findings, wording).stream()
                .filter(drawn -> drawn.material().equals(material))
                .toList();
        if (!charts.isEmpty()) {
            page.heading(say("charts", Wording.shown(material)));
            charts.forEach(drawn -> page.add(new Block.Picture(drawn.chart())));
        }
    }

    private void method() {
        page.heading(say("method"));
        for (String part : METHODS) {
            page.paragraph(say("method." + part));
        }
    }

    private void record() {
        page.heading(say("record"));
        List<List<String>> rows = new ArrayList<>();
        for (SourceFile source : loaded.sources()) {
            rows.add(List.of(Wording.shown(source.name()), source.sha256()));
        }
        page.add(new Block.Table(
                List.of(
                        new Block.Column(say("record.file"), "", false),
                        new Block.Column(say("record.sha256"), "", false)),
                rows));
        page.labelled(say("record.program"), 0, "Slowproof " + envelope.version() + " (" + envelope.commit() + ")");
        page.labelled(say("record.settings"), 0, "SHA-256 " + envelope.settingsSha256());
        Long seed = envelope.seed();
        page.labelled(say("record.seed"), 0, seed == null ? say("record.no_seed") : seed.toString());
        page.paragraph(say("record.data"));
    }

    private void items() {
        page.heading(say("items"));
        page.paragraph(say("items.says"));
        List<List<String>> rows = new ArrayList<>();
        for (String item : ITEMS) {
            rows.add(List.of(say("items.row." + item), say("items.in." + item)));
        }
        page.add(new Block.Table(
                List.of(
                        new Block.Column(say("items.item"), "", false),
                        new Block.Column(say("items.where"), "", false)),
                rows));
    }

    private void annex() {
        page.heading(say("annex"));
        String unit = wording.units().smallLength().symbol();
        String speed = wording.units().speed().symbol();
        boolean dropouts = findings.passes().stream().anyMatch(pass -> pass.dropoutPercent() != null);
        List<Block.Column> columns = new ArrayList<>();
        columns.add(new Block.Column(say("annex.pass"), "", false));
        columns.add(new Block.Column(say("annex.material"), "", false));
        columns.add(new Block.Column(wording.text("head.speed"), speed, true));
        columns.add(new Block.Column(say("annex.reference"), unit, true));
        columns.add(new Block.Column(say("annex.indication"), unit, true));
        columns.add(new Block.Column(wording.text("head.error"), unit, true));
        columns.add(new Block.Column(wording.text("head.error"), "%", true));
        if (dropouts) {
            columns.add(new Block.Column(say("annex.dropout"), "%", true));
        }
        columns.add(new Block.Column(say("annex.state"), "", false));
        List<List<String>> rows = new ArrayList<>();
        for (Pass pass : findings.passes()) {
            rows.add(row(pass, dropouts));
        }
        page.add(new Block.Table(columns, rows));
    }

    private List<String> row(Pass pass, boolean dropouts) {
        List<String> cells = new ArrayList<>();
        int decimals = Math.min(pass.decimals(), 4);
        cells.add(Wording.shown(pass.id()));
        cells.add(Wording.shown(pass.material()));
        cells.add(wording.units().speedNumber(pass.speedMmPerS(), numbers));
        cells.add(length(pass.referenceMm(), decimals, false));
        cells.add(length(pass.indicationMm(), decimals, false));
        cells.add(length(pass.errorMm(), decimals, true));
        cells.add(numbers.signed(100 * pass.error(), 3));
        if (dropouts) {
            Double share = pass.dropoutPercent();
            cells.add(share == null ? wording.text("table.not_available") : numbers.plain(share, 3));
        }
        List<String> state = new ArrayList<>();
        if (!pass.included()) {
            state.add(say("annex.excluded"));
        }
        for (Flag flag : pass.flags()) {
            if (flag != Flag.EXCLUDED) {
                state.add(wording.flag(flag));
            }
        }
        cells.add(String.join("; ", state));
        return cells;
    }

    private String length(double mm, int decimals, boolean signed) {
        double value = wording.units().smallLength().fromMm(mm);
        return signed ? numbers.signed(value, decimals) : numbers.fixed(value, decimals);
    }
}
