package slowproof.report.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Chart;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.wording.Wording;

/** The charts of a trial. */
public final class FindingsCharts {
    /** What a chart shows. */
    public enum Kind {
        /** Error against speed. */
        ERROR_SPEED("error-speed"),
        /** Error against dropout share. */
        ERROR_DROPOUT("error-dropout"),
        /** Deviations in the order of the passes. */
        RESIDUALS("residuals");

        private final String key;

        Kind(String key) {
            this.key = key;
        }

        /** Returns the word for names of files. */
        public String key() {
            return key;
        }
    }

    /**
     * One chart of one material.
     *
     * @param kind what it shows
     * @param material material
     * @param chart the chart
     */
    public record Drawn(Kind kind, String material, Chart chart) {}

    private FindingsCharts() {}

    /** Returns the charts that the passes allow, material by material. */
    public static List<Drawn> of(Findings findings, Wording wording) {
        List<Drawn> charts = new ArrayList<>();
        for (Material material : findings.materials()) {
            if (findings.leading(material.material()).isEmpty()) {
                continue;
            }
            add(charts, Kind.ERROR_SPEED, material, SpeedChart.of(findings, material, wording));
            add(charts, Kind.ERROR_DROPOUT, material, DropoutChart.of(findings, material, wording));
            add(charts, Kind.RESIDUALS, material, ResidualChart.of(findings, material, wording));
        }
        return charts;
    }

    private static void add(List<Drawn> charts, Kind kind, Material material, @Nullable Chart chart) {
        if (chart != null) {
            charts.add(new Drawn(kind, material.material(), chart));
        }
    }
}
