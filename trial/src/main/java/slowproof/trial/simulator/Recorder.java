package slowproof.trial.simulator;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;

/** Samples one series, the sensor and the reference each by its own clock. */
final class Recorder {
    private static final double LARGEST_EDGE_STEP_S = 1e-3;

    private final BenchPlan plan;
    private final SeriesPlan series;
    private final SeriesRun run;
    private final RecorderPlan recorder;
    private final Motion motion;

    Recorder(BenchPlan plan, SeriesPlan series, SeriesRun run, RecorderPlan recorder) {
        this.plan = plan;
        this.series = series;
        this.run = run;
        this.recorder = recorder;
        Motion.Builder builder = Motion.builder().dwell(plan.dwellS());
        run.passes()
                .forEach(pass -> builder.move(pass.travelMm(), series.drive()).dwell(plan.dwellS()));
        this.motion = builder.build();
        if (!(recorder.clockOffsetS() < plan.dwellS())) {
            throw new IllegalArgumentException("the sensor's clock begins " + recorder.clockOffsetS()
                    + " s after the recording, but the first dwell lasts " + plan.dwellS() + " s only");
        }
    }

    SimRecording record(double referenceScale, UniformRandomProvider generator) {
        SensedPath path = sensedPath(generator);
        RandomStreams.Normal normal = RandomStreams.normal(generator);
        double[] sensorTimeS = sensorTimes();
        long[] count = counts(path, sensorTimeS, normal);
        boolean[] valid = new boolean[sensorTimeS.length];
        double[] lostShare = dropouts(path, sensorTimeS, valid, generator);
        double[] axisTimeS = axisTimes();
        double[] axisPositionMm = new double[axisTimeS.length];
        for (int i = 0; i < axisTimeS.length; i++) {
            double shownMm = motion.positionMm(axisTimeS[i]) * (1 + referenceScale)
                    + plan.reference().readingNoiseMm() * normal.next();
            axisPositionMm[i] = Rounding.toStep(shownMm, plan.reference().resolutionMm());
        }
        return new SimRecording(sensorTimeS, count, valid, axisTimeS, axisPositionMm, truth(referenceScale, lostShare));
    }

    private SensedPath sensedPath(UniformRandomProvider generator) {
        return new SensedPath(
                motion, series.material().curve(), run, plan.sensor().standstillDriftMmPerMin() / 60, generator);
    }

    /**
     * Follows the sensed position in steps of a quarter count, at most a millisecond, and finds each edge within a
     * step by a straight line.
     */
    SimEdges edges(double referenceScale, UniformRandomProvider generator) {
        SensedPath path = sensedPath(generator);
        SimSensor sensor = plan.sensor();
        EdgeList edges = new EdgeList();
        double timeS = 0;
        double sensedMm = path.sensedMm(0);
        long startCount = sensor.count(sensedMm);
        long count = startCount;
        while (timeS < motion.durationS()) {
            double speed = Math.abs(motion.speedMmPerS(timeS));
            double nextS = timeS + Math.min(LARGEST_EDGE_STEP_S, 0.25 * sensor.distancePerCountMm() / speed);
            double nextMm = path.sensedMm(nextS);
            long nextCount = sensor.count(nextMm);
            while (count != nextCount) {
                boolean up = nextCount > count;
                double edgeMm = sensor.edgeMm(up ? count + 1 : count);
                count += up ? 1 : -1;
                double edgeS = timeS + (nextS - timeS) * (edgeMm - sensedMm) / (nextMm - sensedMm);
                edges.add(sensorTimeS(edgeS + recorder.latencyS()), count - startCount);
            }
            timeS = nextS;
            sensedMm = nextMm;
        }
        return edges.withTruth(truth(referenceScale, new double[run.passes().size()]));
    }

    private double sensorTimeS(double trueTimeS) {
        return (trueTimeS - recorder.clockOffsetS()) / (1 + recorder.clockDriftPpm() * 1e-6);
    }

    private double trueTimeS(double sensorTimeS) {
        return sensorTimeS * (1 + recorder.clockDriftPpm() * 1e-6) + recorder.clockOffsetS();
    }

    /** Stamps from the first moment at which both clocks run and the motion has begun. */
    private double[] sensorTimes() {
        double rate = 1 + recorder.clockDriftPpm() * 1e-6;
        double firstS = Math.max(0, -recorder.clockOffsetS() / rate);
        double lastS = (motion.durationS() - recorder.clockOffsetS()) / rate;
        // rounding must not lose the sample at the very end
        long first = (long) Math.ceil(firstS * recorder.sensorRateHz() - 1e-6);
        long last = (long) Math.floor(lastS * recorder.sensorRateHz() + 1e-6);
        double[] times = new double[Math.toIntExact(last - first + 1)];
        for (int i = 0; i < times.length; i++) {
            times[i] = (first + i) / recorder.sensorRateHz();
        }
        return times;
    }

    private double[] axisTimes() {
        double[] times = new double[(int) Math.floor(motion.durationS() * recorder.axisRateHz() + 1e-6) + 1];
        for (int i = 0; i < times.length; i++) {
            times[i] = i / recorder.axisRateHz();
        }
        return times;
    }

    private long[] counts(SensedPath path, double[] sensorTimeS, RandomStreams.Normal normal) {
        long[] count = new long[sensorTimeS.length];
        long before = plan.sensor().count(run.phaseMm());
        for (int i = 0; i < count.length; i++) {
            double takenS = trueTimeS(sensorTimeS[i]) + recorder.jitterS() * normal.next() - recorder.latencyS();
            long whole = plan.sensor().count(path.sensedMm(takenS));
            count[i] = recorder.register().shown(recorder.startCount() + whole - before);
        }
        return count;
    }

    /**
     * Switches the signal off and on: a two-state process whose share of time off follows the speed and whose bursts
     * have the material's mean duration. Returns the share of samples off in each move.
     */
    private double[] dropouts(SensedPath path, double[] sensorTimeS, boolean[] valid, UniformRandomProvider generator) {
        Dropouts dropouts = series.material().dropouts();
        int passes = run.passes().size();
        double[] off = new double[passes];
        int[] samples = new int[passes];
        boolean on = true;
        double sinceS = 1 / recorder.sensorRateHz();
        for (int i = 0; i < valid.length; i++) {
            double timeS = trueTimeS(sensorTimeS[i]);
            double speed = Math.abs(motion.speedMmPerS(timeS));
            if (speed == 0) {
                on = true;
            } else {
                int pass = path.passAt(timeS);
                double share = dropouts.share().at(speed) * passFactor(pass);
                // time constant of the process: mean time off is burst, mean time on is burst (1 - share) / share
                double memory = Math.exp(-sinceS / (dropouts.burstS() * (1 - share)));
                double offNext = share + ((on ? 0 : 1) - share) * memory;
                on = generator.nextDouble() >= offNext;
                samples[pass]++;
                off[pass] += on ? 0 : 1;
            }
            valid[i] = on;
        }
        for (int i = 0; i < passes; i++) {
            off[i] = samples[i] == 0 ? 0 : off[i] / samples[i];
        }
        return off;
    }

    /** How much more often than expected the signal is lost in a pass, bounded so that some signal is left. */
    private double passFactor(int pass) {
        double mean = run.model().meanDropoutShare();
        double most = Math.max(
                series.material().dropouts().share().fastValue(),
                series.material().dropouts().share().slowValue());
        return mean == 0 ? 0 : Math.min(run.passes().get(pass).dropoutShare() / mean, 0.999 / most);
    }

    private SimRecording.Truth truth(double referenceScale, double[] lostShare) {
        List<PassTruth> passes = new ArrayList<>();
        List<SimRecording.Standstill> standstills = new ArrayList<>();
        double atRestS = 0;
        for (int i = 0; i < run.passes().size(); i++) {
            SeriesRun.Pass pass = run.passes().get(i);
            Motion.Move move = motion.moves().get(i);
            standstills.add(new SimRecording.Standstill(atRestS, move.startS()));
            atRestS = move.endS();
            passes.add(new PassTruth(
                    series.name(),
                    i + 1,
                    pass.travelMm(),
                    pass.systematicErrorMm(),
                    pass.errorMm(),
                    lostShare[i],
                    move.startS(),
                    move.endS()));
        }
        standstills.add(new SimRecording.Standstill(atRestS, motion.durationS()));
        return new SimRecording.Truth(
                passes,
                standstills,
                recorder.clockOffsetS(),
                recorder.clockDriftPpm(),
                recorder.latencyS(),
                referenceScale,
                plan.sensor().distancePerCountMm());
    }
}
