package slowproof.app;

import java.util.List;
import java.util.Objects;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingCut;
import slowproof.report.chart.Chart;
import slowproof.report.recording.RecordingChart;
import slowproof.trial.RecordedPass;
import slowproof.trial.recording.SpeedTrace;
import slowproof.wording.Wording;

/** How a recording of a trial looked, with its passes. */
public final class RecordingPicture {
    private RecordingPicture() {}

    /**
     * Returns the chart.
     *
     * @param name what the chart calls the recording
     * @throws NullPointerException if the trial was read without traces
     */
    public static Chart of(LoadedTrial loaded, RecordingCut cut, String name, Wording wording) {
        SpeedTrace trace = Objects.requireNonNull(cut.trace(), "recordings to be drawn are read with their traces");
        List<RecordedPass> passes = loaded.trial().recorded().stream()
                .filter(pass -> pass.recording().equals(cut.name()))
                .toList();
        return RecordingChart.of(name, trace, passes, cut.breaks(), wording);
    }
}
