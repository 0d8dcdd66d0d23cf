package slowproof.app.demo;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.app.demo.DemoBench.Run;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.TrialEvents;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Setup;
import slowproof.trial.Trial;
import slowproof.trial.simulator.CurveShape;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.KneeCurve;
import slowproof.trial.simulator.TrueMaterial;

/** The typed trials of the scenario. The second sensor holds down to about two thirds of the speed of the first. */
final class DemoTrials {
    /** Serial number of the first sensor. */
    static final String FIRST = "invented-1";

    /** Place of the trial that ran on the fabric that a customer sent. */
    static final int FABRIC_SENT = 5;

    /** Place of the trial that ran on the film that a customer sent. */
    static final int FILM_SENT = 9;

    private static final String SECOND = "invented-2";
    private static final Reference TAPE =
            new Reference("tape on the floor", Reference.Kind.TAPE, null, null, 2, null, null);
    private static final double STROKE_MM = DemoPlant.STROKE_MM;

    private final List<DemoCase> cases = new ArrayList<>();

    private DemoTrials() {}

    /** Returns the trials, surface by surface. */
    static List<DemoCase> all() {
        DemoTrials made = new DemoTrials();
        made.felt();
        made.fabric();
        made.film();
        return List.copyOf(made.cases);
    }

    /** Returns the trial of felt on which the answered question rests. */
    static Trial firstFelt() {
        return trial(
                "Felt, first look at the new sensor",
                new Run(DemoPlant.felt(), STROKE_MM, 3, List.of(400.0, 150.0, 90.0, 55.0, 35.0)),
                FIRST,
                setup("A, window new", 110),
                DemoBench.SCALE,
                DemoBench.LIMIT,
                11);
    }

    private void felt() {
        add(214, firstFelt(), "Grey side up. The felt lay a night beside the bench.");
        add(
                131,
                trial(
                        "Felt, window after three months of dust",
                        new Run(DemoPlant.felt(), STROKE_MM, 2, List.of(400.0, 90.0, 55.0, 44.0)),
                        FIRST,
                        setup("A, window dusty", 110),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        12),
                "Window not cleaned on purpose.");
        add(
                58,
                trial(
                        "Felt, second sensor",
                        new Run(felt(19), STROKE_MM, 3, List.of(400.0, 90.0, 55.0, 35.0, 21.0)),
                        SECOND,
                        setup("B", 130),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        13),
                "");
    }

    private void fabric() {
        add(
                187,
                trial(
                        "Glass fabric, aluminium up",
                        new Run(DemoPlant.fabric(), STROKE_MM, 3, List.of(245.0, 150.0, 90.0, 55.0)),
                        FIRST,
                        setup("A, window new", 110),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        21),
                "Aluminium side up; it shines.");
        Trial caught = trial(
                "Glass fabric, again with the cable guided",
                new Run(DemoPlant.fabric(), STROKE_MM, 3, List.of(245.0, 150.0, 90.0)),
                FIRST,
                setup("A, cable guided", 110),
                DemoBench.SCALE,
                DemoBench.LIMIT,
                22);
        add(
                96,
                DemoBench.pushed(caught, 1, 3, -14.3, "the cable caught on the guard and pulled the sensor"),
                "The guard was moved after the second speed.");
        add(
                34,
                trial(
                        "Glass fabric, second sensor",
                        new Run(fabric(29), STROKE_MM, 2, List.of(245.0, 90.0, 55.0, 46.0)),
                        SECOND,
                        setup("B", 130),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        23),
                "");
        add(
                2,
                trial(
                        "Glass fabric, glass side up",
                        new Run(fabric(31), STROKE_MM, 2, List.of(150.0, 90.0)),
                        SECOND,
                        setup("B", 130),
                        DemoBench.SCALE,
                        null,
                        24),
                "Limit to be asked for.");
    }

    private void film() {
        add(
                166,
                trial(
                        "Clear film, lamp behind it",
                        new Run(DemoPlant.film(), STROKE_MM, 3, List.of(400.0, 245.0, 150.0, 90.0)),
                        FIRST,
                        setup("A, lamp behind", 110),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        31),
                "Without the lamp the sensor sees nothing.");
        add(
                73,
                trial(
                        "Clear film, sensor tilted, one look only",
                        new Run(DemoPlant.film(), STROKE_MM, 1, List.of(245.0, 150.0)),
                        FIRST,
                        new Setup("A, tilted", "", 110.0, 0.5, null, null, 21.0, 1.0, null, null),
                        DemoBench.SCALE,
                        DemoBench.LIMIT,
                        32),
                "");
        add(
                27,
                trial(
                        "Clear film against the tape on the floor",
                        new Run(film(48), STROKE_MM, 2, List.of(150.0, 90.0)),
                        SECOND,
                        setup("B", 130),
                        TAPE,
                        DemoBench.LIMIT,
                        33),
                "Nobody knows how good the tape is.");
        Trial open = trial(
                "Clear film, second sensor",
                new Run(film(48), STROKE_MM, 2, List.of(150.0, 90.0)),
                SECOND,
                setup("B", 130),
                DemoBench.SCALE,
                DemoBench.LIMIT,
                34);
        List<NewEvent> events = TrialEvents.of(open);
        // the carriage went out and has not come back
        add(1, events.subList(0, events.size() - 1), "To be gone on with.");
    }

    private static TrueMaterial felt(double kneeMmPerS) {
        return TrueMaterial.of(DemoPlant.FELT, new KneeCurve(CurveShape.LOGISTIC, kneeMmPerS, 0.2, -0.02, 0.0001))
                .withStart(-0.03, 0.03)
                .withTravelScatter(0.015);
    }

    private static TrueMaterial fabric(double kneeMmPerS) {
        return TrueMaterial.of(DemoPlant.FABRIC, new KneeCurve(CurveShape.HILL, kneeMmPerS, 0.2, 0.015, 0.0002))
                .withStart(0.02, 0.04)
                .withTravelScatter(0.02);
    }

    private static TrueMaterial film(double kneeMmPerS) {
        return TrueMaterial.of(DemoPlant.FILM, new KneeCurve(CurveShape.GOMPERTZ, kneeMmPerS, 0.15, -0.04, -0.0001))
                .withStart(-0.08, 0.06)
                .withTravelScatter(0.03);
    }

    private static Setup setup(String name, double workingDistanceMm) {
        return new Setup(name, "", workingDistanceMm, null, null, null, 21.0, 1.0, null, null);
    }

    private static Trial trial(
            String title, Run run, String serial, Setup setup, Reference reference, @Nullable Limit limit, long seed) {
        return new DemoBench(seed).read(title, run, serial, setup, reference, limit);
    }

    private void add(int daysAgo, Trial trial, String notes) {
        add(daysAgo, TrialEvents.of(trial), notes);
    }

    private void add(int daysAgo, List<NewEvent> events, String notes) {
        List<NewEvent> all = new ArrayList<>(events);
        // at the end: a pass that is left out is named by the number of its event
        all.add(DemoCase.fact(FactName.NOTES, (DemoArchive.INVENTED + " " + notes).strip()));
        cases.add(new DemoCase(daysAgo, all));
    }
}
