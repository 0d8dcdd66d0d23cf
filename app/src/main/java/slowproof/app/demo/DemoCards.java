package slowproof.app.demo;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import slowproof.app.Program;
import slowproof.app.web.Show;
import slowproof.archive.Event;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.Question;
import slowproof.archive.desk.Sample;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.summary.TrialSummary;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.simulator.DemoPlant;
import slowproof.wording.InquiryReply;
import slowproof.wording.Wording;

/** What was asked and what was sent in the scenario. */
final class DemoCards {
    private static final double SLOWEST_MM_PER_S = 90;
    private static final double FASTEST_MM_PER_S = 400;
    private static final double PIECE_MM = 900;
    private static final double TOLERANCE_MM = 2;

    private final LocalDate today;
    private final ZoneId zone;

    DemoCards(LocalDate today, ZoneId zone) {
        this.today = today;
        this.zone = zone;
    }

    private CardEvent event(long seq, int daysAgo, String kind, Map<String, String> fields) {
        Instant at = today.minusDays(daysAgo)
                .atTime(9, 0)
                .plusMinutes(5 * seq)
                .atZone(zone)
                .toInstant();
        return new CardEvent(seq, at, kind, fields);
    }

    private String day(int daysFromNow) {
        return today.plusDays(daysFromNow).toString();
    }

    /**
     * Returns the questions: one was answered from the first trial of felt, one is open and late.
     *
     * @param trial id of that trial
     * @param events its events
     */
    List<List<CardEvent>> questions(String trial, List<Event> events) {
        Map<String, String> answered = Map.of(
                "material", DemoPlant.FELT,
                "slowest", "90",
                "fastest", "400",
                "piece", "900",
                "tolerance", "2",
                "gentlest", "500",
                "hardest", "500",
                "asked_by", "Werk Sonnenhang (invented)",
                "due", day(-168),
                "mark", "dot");
        Map<String, String> open = Map.of(
                "material", DemoPlant.FILM,
                "slowest", "60",
                "fastest", "250",
                "piece", "2500",
                "tolerance", "3",
                "asked_by", "Plant Two Rivers (invented)",
                "due", day(-1),
                "text", "They want to cut clear film on the old cross-cutter.",
                "mark", "dot");
        return List.of(
                List.of(
                        event(1, 175, Question.ASKED, answered),
                        event(2, 170, Question.ANSWERED, answer(trial, events)),
                        event(3, 170, Question.SENT, Map.of())),
                List.of(event(1, 6, Question.ASKED, open)));
    }

    /** The program's own reply to the question. */
    private Map<String, String> answer(String trial, List<Event> events) {
        Inquiry inquiry = new Inquiry(
                DemoPlant.FELT,
                SLOWEST_MM_PER_S,
                FASTEST_MM_PER_S,
                DemoPlant.ACCELERATION_MM_PER_S2,
                DemoPlant.ACCELERATION_MM_PER_S2,
                PIECE_MM,
                TOLERANCE_MM);
        Sheet sheet = Sheet.of(trial, events);
        TrialSummary summary = TrialSummary.of(sheet, Evaluation.of(DemoTrials.firstFelt()));
        Assessment said = Assessment.of(inquiry, summary.surfaces().get(0).evidence());
        return Map.of(
                "en", reply(said, sheet, Locale.ENGLISH),
                "de", reply(said, sheet, Locale.GERMAN),
                "verdict", said.verdict().key(),
                "program", Program.build(),
                "evidence", trial);
    }

    private String reply(Assessment said, Sheet sheet, Locale language) {
        Wording wording = Wording.of(language).withPages();
        String day = new Show(wording, zone).day(sheet.changedAt());
        return InquiryReply.of(said, said.inquiry(), sheet.title(), day, said.steps(), wording);
    }

    /**
     * Returns the samples: one is late, one is due soon, one went back, one stays.
     *
     * @param felt id of the trial that ran on the first sample
     * @param fabric id of the trial that ran on the second sample
     * @param film id of the trial that ran on the third sample
     */
    List<List<CardEvent>> samples(String felt, String fabric, String film) {
        List<List<CardEvent>> samples = new ArrayList<>();
        samples.add(List.of(
                event(
                        1,
                        220,
                        Sample.NOTED,
                        Map.of(
                                "sender", "Werk Sonnenhang (invented)",
                                "material", DemoPlant.FELT,
                                "batch", "F-114",
                                "side", "grey side up",
                                "grain", "along the web",
                                "amount", "4 m",
                                "storage", "shelf 2",
                                "received", day(-220),
                                "due", day(-150))),
                event(2, 214, Sample.LINKED, Map.of("trial", felt)),
                event(3, 152, Sample.RETURNED, Map.of("day", day(-152)))));
        samples.add(List.of(
                event(
                        1,
                        40,
                        Sample.NOTED,
                        Map.of(
                                "sender", "Plant Two Rivers (invented)",
                                "material", DemoPlant.FABRIC,
                                "batch", "G-2071",
                                "side", "aluminium side up",
                                "grain", "along the warp",
                                "amount", "6 m",
                                "storage", "shelf 3, dry",
                                "received", day(-40),
                                "due", day(-4))),
                event(2, 34, Sample.LINKED, Map.of("trial", fabric))));
        samples.add(List.of(
                event(
                        1,
                        30,
                        Sample.NOTED,
                        Map.of(
                                "sender", "Plant Two Rivers (invented)",
                                "material", DemoPlant.FILM,
                                "batch", "roll 18",
                                "side", "either",
                                "storage", "cupboard, dark",
                                "received", day(-30),
                                "due", day(12))),
                event(2, 27, Sample.LINKED, Map.of("trial", film))));
        samples.add(List.of(event(
                1,
                90,
                Sample.NOTED,
                Map.of(
                        "sender", "own stock (invented)",
                        "material", DemoPlant.FELT,
                        "batch", "F-090",
                        "side", "white side up",
                        "storage", "shelf 1",
                        "received", day(-90)))));
        return samples;
    }
}
