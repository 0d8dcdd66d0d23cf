package slowproof.app.text;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.ConditionKey;
import slowproof.trial.findings.Cycle;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.wording.Figures;
import slowproof.wording.MaterialAnswer;
import slowproof.wording.Numbers;
import slowproof.wording.Reply;
import slowproof.wording.Wording;

/** Findings as a person reads them: the answer first, then what it rests on. */
public final class FindingsText {
    /** Up to so many rows every direction is shown. */
    private static final int ALL_ROWS = 24;

    private static final int LISTED = 8;

    private static final String[] EXPLAINED = {
        "error",
        "uncertainty",
        "scatter",
        "limit",
        "inside",
        "answer",
        "floor",
        "closure",
        "reversal",
        "budget",
        "exclusions"
    };

    private final Findings findings;
    private final Wording wording;
    private final Numbers numbers;
    private final Page page;
    private boolean complete;

    private FindingsText(Findings findings, Wording wording, Page page) {
        this.findings = findings;
        this.wording = wording;
        this.numbers = wording.numbers();
        this.page = page;
    }

    /**
     * Returns the page.
     *
     * @param findings findings
     * @param wording language and units
     * @param colour true to colour marks and headings, which say the same without it
     * @param width columns of the page
     */
    public static String render(Findings findings, Wording wording, boolean colour, int width) {
        Page page = new TextPage(wording, colour, width);
        new FindingsText(findings, wording, page).write();
        return page.toString();
    }

    /**
     * What a document adds between the parts of the findings.
     *
     * @param afterAnswer follows the answer
     * @param afterDescription follows what was compared with what
     * @param afterMaterial follows the figures of a material
     * @param afterMaterials follows the figures of all materials
     */
    record Additions(
            Runnable afterAnswer,
            Runnable afterDescription,
            Consumer<Material> afterMaterial,
            Runnable afterMaterials) {
        /** Nothing is added. */
        static final Additions NONE = new Additions(() -> {}, () -> {}, material -> {}, () -> {});
    }

    /** Writes the answer and what it rests on as parts of a document, all rows of every table. */
    static void document(Findings findings, Wording wording, DocumentPage page, Additions additions) {
        FindingsText text = new FindingsText(findings, wording, page);
        text.complete = true;
        List<MaterialAnswer> answers = MaterialAnswer.all(findings, wording);
        text.answer(answers);
        additions.afterAnswer().run();
        text.described(findings.trial());
        additions.afterDescription().run();
        text.basis(answers, additions);
    }

    /** Returns what each number means, one paragraph each. */
    public static String explain(Wording wording, boolean colour, int width) {
        Page page = new TextPage(wording, colour, width);
        page.heading(wording.text("section.explained"));
        for (String key : EXPLAINED) {
            page.term(wording.text("explain." + key + ".title"));
            page.paragraph(wording.text("explain." + key));
        }
        return page.toString();
    }

    private void write() {
        Trial trial = findings.trial();
        if (!trial.title().isEmpty()) {
            page.title(Wording.shown(trial.title()));
        }
        described(trial);
        List<MaterialAnswer> answers = MaterialAnswer.all(findings, wording);
        answer(answers);
        basis(answers, Additions.NONE);
    }

    private void basis(List<MaterialAnswer> answers, Additions additions) {
        for (Material material : findings.materials()) {
            conditions(material);
            OverAllSpeeds.write(findings, material, wording, page);
            additions.afterMaterial().accept(material);
        }
        additions.afterMaterials().run();
        closure();
        for (MaterialAnswer answer : answers) {
            budget(answer);
        }
        excluded();
        marksOnPasses();
        notes();
        page.heading(wording.text("section.cautions"));
        for (String caution : new String[] {"machine", "light", "validity", "rules"}) {
            page.bullet("!", Page.Tone.PLAIN, wording.text("caution." + caution));
        }
    }

    // what was compared with what

    private void described(Trial trial) {
        String[] labels = {"sensor", "reference", "limit", "stated", "rule"};
        int width = 0;
        for (String label : labels) {
            width = Math.max(width, Cells.width(wording.text("label." + label)));
        }
        Sensor sensor = trial.sensor();
        Double step = sensor.resolutionMm();
        labelled(
                "sensor",
                width,
                // a sensor without a name begins with what is known of it
                wording.text(
                                "described.sensor",
                                sensor.name(),
                                sensor.serial(),
                                step == null ? "" : wording.quantity(Quantity.mm(step)))
                        .replaceFirst("^, ", ""));
        labelled("reference", width, reference(trial.reference(), wording));
        labelled("limit", width, limit(trial.limit()));
        StatedAccuracy stated = trial.stated();
        if (stated != null) {
            labelled(
                    "stated",
                    width,
                    wording.text(
                            "described.stated",
                            Quantity.percent(100 * stated.relative()),
                            Quantity.mmPerS(stated.fromSpeedMmPerS())));
        }
        if (trial.limit() != null && trial.reference().hasUncertainty()) {
            labelled("rule", width, wording.text("rule." + trial.rule().name().toLowerCase(Locale.ROOT)));
        }
    }

    private void labelled(String label, int width, String text) {
        if (!text.isEmpty()) {
            page.labelled(wording.text("label." + label), width, text);
        }
    }

    /** Returns a reference and its uncertainty as words. */
    static String reference(Reference reference, Wording wording) {
        String uncertainty;
        if (reference.expandedUncertaintyMm() != null || reference.expandedUncertaintyPpm() != null) {
            uncertainty = wording.text(
                    "described.uncertainty",
                    sum(reference.expandedUncertaintyMm(), reference.expandedUncertaintyPpm(), " ppm", wording),
                    reference.coverageFactor());
        } else if (reference.tapeClass() != null) {
            uncertainty = wording.text(
                    "described.uncertainty_tape", reference.tapeClass().name());
        } else {
            uncertainty = wording.text("described.uncertainty_unknown");
        }
        return wording.text(
                "described.reference", reference.name(), reference.kind().name().toLowerCase(Locale.ROOT), uncertainty);
    }

    private String limit(@Nullable Limit limit) {
        return limit == null ? wording.text("described.no_limit") : limit(limit, wording);
    }

    /** Returns a limit as words. */
    static String limit(Limit limit, Wording wording) {
        String preset = limit.preset();
        return wording.text(
                "described.limit",
                sum(
                        limit.absoluteMm() > 0 ? Double.valueOf(limit.absoluteMm()) : null,
                        limit.relative() > 0 ? Double.valueOf(100 * limit.relative()) : null,
                        " %",
                        wording),
                limit.minimumMm() > 0 ? wording.quantity(Quantity.mm(limit.minimumMm())) : "",
                preset == null ? "" : preset.toLowerCase(Locale.ROOT));
    }

    /** Returns "0.05 mm + 0.15 % of the length", or the one part that is there. */
    private static String sum(@Nullable Double mm, @Nullable Double share, String unit, Wording wording) {
        String fixed = mm == null ? "" : wording.quantity(Quantity.mm(mm));
        if (share == null) {
            return fixed;
        }
        String proportional =
                wording.text("described.of_the_length", wording.numbers().plain(share) + unit);
        return fixed.isEmpty() ? proportional : fixed + " + " + proportional;
    }

    // the answer

    private void answer(List<MaterialAnswer> answers) {
        page.heading(wording.text("section.answer"));
        for (String why : Reply.whyScreeningOnly(answers, findings.trial(), wording)) {
            page.paragraph(why);
        }
        for (MaterialAnswer answer : answers) {
            String text = String.join(" ", answer.sentences());
            switch (answer.standing()) {
                case HOLDS -> page.bullet("\u2713", Page.Tone.GOOD, text);
                case PARTLY -> page.bullet("~", Page.Tone.OPEN, text);
                case FAILS -> page.bullet("\u2717", Page.Tone.BAD, text);
                case UNDECIDED -> page.bullet("?", Page.Tone.OPEN, text);
                case SCREENING_ONLY -> page.bullet("-", Page.Tone.PLAIN, text);
            }
        }
        for (String remark : Reply.remarks(findings, wording)) {
            page.paragraph(remark);
        }
    }

    // the conditions

    private void conditions(Material material) {
        List<Condition> all = findings.conditionsOf(material.material());
        boolean leadingOnly = !complete && findings.conditions().size() > ALL_ROWS;
        List<Condition> rows = leadingOnly ? findings.leading(material.material()) : all;
        Set<String> setups = new LinkedHashSet<>();
        Set<String> accelerations = new LinkedHashSet<>();
        boolean ownTable = SpeedTable.has(rows);
        boolean speeds = false;
        for (Condition row : rows) {
            setups.add(row.key().setup());
            accelerations.add(acceleration(row.key()));
            speeds |= row.speed() != null && !ownTable;
        }
        page.heading(wording.text("section.conditions", title(material.material(), setups, accelerations)));
        if (complete && setups.size() > 1) {
            // a column less: a page is narrower than a terminal may be
            for (String setup : setups) {
                page.term(setup.isEmpty() ? wording.text("table.setup_unnamed") : Wording.shown(setup));
                rows(
                        rows.stream()
                                .filter(row -> row.key().setup().equals(setup))
                                .toList(),
                        new ConditionTable(false, accelerations.size() > 1, speeds));
            }
        } else {
            rows(rows, new ConditionTable(setups.size() > 1, accelerations.size() > 1, speeds));
        }
        if (leadingOnly && rows.size() < all.size()) {
            page.paragraph(wording.text("table.leading_only"));
        }
        Double scatter = material.passScatterMm();
        if (scatter != null) {
            page.paragraph(
                    scatter == 0
                            ? wording.text("table.pass_scatter_below_resolution")
                            : wording.text("table.pass_scatter", twoDigitLength(scatter)));
        }
        marks(rows, setups.size() > 1, accelerations.size() > 1);
        if (ownTable) {
            SpeedTable.write(
                    title(material.material(), setups, accelerations),
                    rows,
                    new KeyColumns(wording, setups.size() > 1, accelerations.size() > 1),
                    page);
        }
    }

    private void rows(List<Condition> rows, ConditionTable table) {
        rows.forEach(table::add);
        List<String> dropped = page.table(table.table);
        table.missing.forEach((reason, heads) -> {
            if (!dropped.containsAll(heads)) {
                page.paragraph(wording.text("table.missing", reason));
            }
        });
    }

    private String title(String material, Set<String> setups, Set<String> accelerations) {
        StringBuilder title = new StringBuilder(Wording.shown(material));
        for (Set<String> common : List.of(setups, accelerations)) {
            String only = common.size() == 1 ? common.iterator().next() : "";
            if (!only.isEmpty()) {
                title.append(", ").append(Wording.shown(only));
            }
        }
        return title.toString();
    }

    private String acceleration(ConditionKey key) {
        Double acceleration = key.accelerationMmPerS2();
        return acceleration == null ? "" : numbers.plain(acceleration) + " mm/s\u00b2";
    }

    private String twoDigitLength(double lengthMm) {
        double value = wording.units().smallLength().fromMm(lengthMm);
        return numbers.fixed(value, Numbers.decimalsFor(value)) + " "
                + wording.units().smallLength().symbol();
    }

    /** The table of one material's conditions. */
    private final class ConditionTable {
        final TextTable table;
        /** Why cells are empty, with the heads of their columns. */
        final Map<String, Set<String>> missing = new LinkedHashMap<>();

        private final KeyColumns columns;
        private final boolean speeds;

        ConditionTable(boolean setups, boolean accelerations, boolean speeds) {
            this.speeds = speeds;
            columns = new KeyColumns(wording, setups, accelerations);
            table = columns.table()
                    .number(head("passes"), "", 0)
                    .number(head("error"), "%", 0)
                    .number(head("uncertainty"), "%", 0)
                    .number(head("scatter"), "%", 3)
                    .number(head("limit"), "%", 0);
            if (speeds) {
                table.number(head("speed_error"), "%", 4);
            }
            table.text(head("single_answer"), 0)
                    .number(head("single_inside"), "%", 1)
                    .text(head("mean_answer"), 5)
                    .number(head("mean_inside"), "%", 2);
        }

        void add(Condition row) {
            Figures figures = new Figures(row, wording);
            List<String> cells = columns.cells(row);
            cells.add(numbers.whole(row.passes()));
            cells.add(figures.errorPercent());
            cells.add(figures.uncertaintyPercent());
            if (row.flags().contains(Flag.SCATTER_BELOW_RESOLUTION)) {
                explain(ReasonCode.SCATTER_BELOW_RESOLUTION, "scatter");
            }
            cells.add(orReason(figures.repeatabilityPercent(), row, "repeatability_pct", "scatter"));
            cells.add(orReason(figures.limitPercent(), row, "limit_pct", "limit"));
            if (speeds) {
                IndicatedSpeed speed = row.speed();
                cells.add(speed == null ? notAvailable() : numbers.plain(100 * speed.error(), 3));
            }
            cells.add(shortAnswer(row.singlePassDecision()));
            cells.add(orReason(figures.singlePassProbability(), row, "single_pass_probability", "single_inside"));
            cells.add(shortAnswer(row.decision()));
            cells.add(orReason(figures.meanProbability(), row, "conformance_probability", "mean_inside"));
            table.row(cells.toArray(new String[0]));
        }

        private String orReason(String cell, Condition row, String key, String head) {
            if (!cell.isEmpty()) {
                return cell;
            }
            ReasonCode reason = row.reasons().get(key);
            if (reason != null) {
                explain(reason, head);
            }
            return notAvailable();
        }

        private void explain(ReasonCode reason, String head) {
            missing.computeIfAbsent(wording.reason(reason), r -> new LinkedHashSet<>())
                    .add(TextTable.plain(head(head)));
        }
    }

    private String head(String key) {
        return wording.text("head." + key);
    }

    private String notAvailable() {
        return wording.text("table.not_available");
    }

    private String shortAnswer(Answer answer) {
        return wording.text("short." + answer.name().toLowerCase(Locale.ROOT));
    }

    /** Lists each mark with the conditions that bear it. */
    private void marks(List<Condition> rows, boolean setups, boolean accelerations) {
        Map<Flag, List<String>> places = new LinkedHashMap<>();
        for (Condition row : rows) {
            for (Flag flag : row.flags()) {
                places.computeIfAbsent(flag, f -> new ArrayList<>()).add(place(row, setups, accelerations));
            }
        }
        places.forEach((flag, where) ->
                page.bullet("*", Page.Tone.PLAIN, wording.text("marks.row", wording.flag(flag), listed(where))));
    }

    private String place(Condition row, boolean setup, boolean acceleration) {
        StringBuilder place =
                new StringBuilder(wording.quantity(Quantity.mmPerS(row.key().speedMmPerS())));
        String ramp = acceleration(row.key());
        if (acceleration && !ramp.isEmpty()) {
            place.append(' ').append(ramp);
        }
        if (setup) {
            place.append(' ').append(Wording.shown(row.key().setup()));
        }
        if (row.direction() != Direction.BOTH) {
            place.append(' ').append(wording.direction(row.direction()));
        }
        return place.toString();
    }

    private String listed(List<String> places) {
        if (complete || places.size() <= LISTED) {
            return String.join(", ", places);
        }
        return String.join(", ", places.subList(0, LISTED)) + " " + wording.text("list.more", places.size() - LISTED);
    }

    // what it rests on

    private void closure() {
        Map<String, List<Cycle>> groups = new LinkedHashMap<>();
        for (Cycle cycle : findings.cycles()) {
            if (cycle.closureMm() != null
                    && cycle.forward().included()
                    && cycle.back().included()) {
                String key = cycle.forward().material() + '\n' + cycle.forward().speedMmPerS();
                groups.computeIfAbsent(key, k -> new ArrayList<>()).add(cycle);
            }
        }
        if (groups.isEmpty()) {
            return;
        }
        if (!complete && groups.size() > ALL_ROWS) {
            groups = byMaterial(groups);
        }
        page.heading(wording.text("section.closure"));
        String unit = wording.units().smallLength().symbol();
        TextTable table = new TextTable(numbers.decimalSign())
                .text(head("material"), 0)
                .number(head("speed"), wording.units().speed().symbol(), 0)
                .number(head("cycles"), "", 0)
                .number(head("closure"), unit, 0)
                .number(head("smallest"), unit, 0)
                .number(head("largest"), unit, 0);
        for (List<Cycle> cycles : groups.values()) {
            closureRow(table, cycles);
        }
        page.table(table);
        page.paragraph(wording.text("closure.says"));
    }

    /** A long ladder would fill pages: its speeds are summed up. */
    private static Map<String, List<Cycle>> byMaterial(Map<String, List<Cycle>> groups) {
        Map<String, List<Cycle>> materials = new LinkedHashMap<>();
        groups.values()
                .forEach(cycles -> materials
                        .computeIfAbsent(cycles.get(0).forward().material(), k -> new ArrayList<>())
                        .addAll(cycles));
        return materials;
    }

    private void closureRow(TextTable table, List<Cycle> cycles) {
        double sum = 0;
        double smallest = Double.POSITIVE_INFINITY;
        double largest = Double.NEGATIVE_INFINITY;
        int decimals = 0;
        for (Cycle cycle : cycles) {
            double closure = cycle.closureMm() == null ? 0 : cycle.closureMm();
            sum += closure;
            smallest = Math.min(smallest, closure);
            largest = Math.max(largest, closure);
            decimals = Math.max(decimals, Math.min(cycle.forward().decimals(), 4));
        }
        Double step = findings.trial().sensor().resolutionMm();
        if (step != null) {
            // a correction of the reference adds digits that the readings do not carry
            decimals = Math.min(
                    decimals,
                    Math.max(0, BigDecimal.valueOf(step).stripTrailingZeros().scale()));
        }
        Pass first = cycles.get(0).forward();
        DoubleSummaryStatistics speeds = cycles.stream()
                .mapToDouble(cycle -> cycle.forward().speedMmPerS())
                .summaryStatistics();
        String slowest = wording.units().speedNumber(speeds.getMin(), numbers);
        String fastest = wording.units().speedNumber(speeds.getMax(), numbers);
        table.row(
                Wording.shown(first.material()),
                slowest.equals(fastest) ? slowest : wording.text("speeds.range", slowest, fastest),
                numbers.whole(cycles.size()),
                signedLength(sum / cycles.size(), decimals + 1),
                signedLength(smallest, decimals),
                signedLength(largest, decimals));
    }

    private String signedLength(double lengthMm, int decimals) {
        return numbers.signed(wording.units().smallLength().fromMm(lengthMm), decimals);
    }

    private void budget(MaterialAnswer answer) {
        Condition condition = answer.deciding();
        if (condition.budget().isEmpty()) {
            return;
        }
        page.heading(wording.text("section.budget", answer.material().material(), place(condition, false, false)));
        TextTable table = new TextTable(numbers.decimalSign())
                .text(head("source"), 0)
                .number(head("standard_uncertainty"), "%", 0)
                .number(head("degrees_of_freedom"), "", 0)
                .number(head("share"), "%", 0);
        int decimals = Numbers.decimalsFor(100 * condition.standardUncertainty());
        for (BudgetLine line : condition.budget()) {
            table.row(
                    wording.source(line.source()),
                    numbers.fixed(100 * line.standardUncertainty(), decimals),
                    degrees(line.degreesOfFreedom()),
                    numbers.fixed(line.sharePercent(), 0));
        }
        String together = numbers.fixed(100 * condition.standardUncertainty(), decimals);
        table.row(wording.text("table.together"), together, degrees(condition.effectiveDegreesOfFreedom()), "100");
        page.table(table);
        Figures figures = new Figures(condition, wording);
        page.paragraph(
                wording.text("budget.expanded", figures.coverageFactor(), together, figures.uncertaintyPercent()));
    }

    private String degrees(double degreesOfFreedom) {
        return Double.isInfinite(degreesOfFreedom)
                ? wording.text("table.infinite")
                : numbers.plain(Math.floor(degreesOfFreedom * 10) / 10, 3);
    }

    private void excluded() {
        boolean any = false;
        for (Pass pass : findings.passes()) {
            String because = pass.excludedBecause();
            if (because != null) {
                if (!any) {
                    page.heading(wording.text("section.excluded"));
                    any = true;
                }
                page.bullet("*", Page.Tone.PLAIN, wording.text("marks.row", pass.id(), because));
            }
        }
        if (any) {
            withAndWithout();
        }
    }

    private void withAndWithout() {
        TextTable table = new TextTable(numbers.decimalSign())
                .text(head("material"), 0)
                .number(head("speed"), wording.units().speed().symbol(), 0)
                .text(head("direction"), 0)
                .text(head("counted"), 0)
                .number(head("passes"), "", 0)
                .number(head("error"), "%", 0)
                .number(head("uncertainty"), "%", 0)
                .text(head("single_answer"), 0)
                .text(head("mean_answer"), 1);
        for (Condition with : findings.conditionsWithExcluded()) {
            Condition without = counterpart(with);
            if (without == null || without.passes() != with.passes()) {
                if (without != null) {
                    comparison(table, without, "left_out");
                }
                comparison(table, with, "counted_in");
            }
        }
        page.paragraph(wording.text("excluded.effect"));
        page.table(table);
    }

    private @Nullable Condition counterpart(Condition with) {
        for (Condition condition : findings.conditions()) {
            if (condition.key().equals(with.key()) && condition.direction() == with.direction()) {
                return condition;
            }
        }
        return null;
    }

    private void comparison(TextTable table, Condition row, String which) {
        Figures figures = new Figures(row, wording);
        table.row(
                Wording.shown(row.key().material()),
                figures.speed(),
                wording.direction(row.direction()),
                head(which),
                numbers.whole(row.passes()),
                figures.errorPercent(),
                figures.uncertaintyPercent(),
                shortAnswer(row.singlePassDecision()),
                shortAnswer(row.decision()));
    }

    /** Marks that no note speaks of. */
    private void marksOnPasses() {
        Map<Flag, List<String>> places = new LinkedHashMap<>();
        for (Pass pass : findings.passes()) {
            for (Flag flag : pass.flags()) {
                if (flag != Flag.EXCLUDED && flag != Flag.STRAGGLER && flag != Flag.OUTLIER) {
                    places.computeIfAbsent(flag, f -> new ArrayList<>()).add(Wording.shown(pass.id()));
                }
            }
        }
        if (places.isEmpty()) {
            return;
        }
        page.heading(wording.text("section.passes"));
        places.forEach((flag, where) ->
                page.bullet("*", Page.Tone.PLAIN, wording.text("marks.row", wording.flag(flag), listed(where))));
    }

    private void notes() {
        boolean any = false;
        for (Note note : findings.notes()) {
            if (note.code() == NoteCode.EXCLUDED) {
                continue;
            }
            if (!any) {
                page.heading(wording.text("section.notes"));
                any = true;
            }
            String where = wording.where(note);
            page.bullet("*", Page.Tone.PLAIN, (where.isEmpty() ? "" : where + ": ") + wording.note(note));
        }
    }
}
