package slowproof.app.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.PlotJson;
import slowproof.report.findings.CompareChart;
import slowproof.trial.compare.Comparison;
import slowproof.trial.compare.Difference;
import slowproof.trial.compare.Pair;
import slowproof.wording.Wording;

/**
 * A comparison in words and figures.
 *
 * @param names name of each result that is compared, the one to compare with first
 * @param keys how each stands in an address
 * @param chart chart for the painter, or null with fewer than two results
 * @param title title of the chart
 * @param pairs the first result with each of the others
 */
public record CompareView(
        List<String> names, List<String> keys, @Nullable String chart, String title, List<PairView> pairs) {
    /** Copies the lists. */
    public CompareView {
        names = List.copyOf(names);
        keys = List.copyOf(keys);
        pairs = List.copyOf(pairs);
    }

    /**
     * Two results speed by speed.
     *
     * @param first name of the first
     * @param second name of the second
     * @param pair what was computed
     * @param sentence what it says
     * @param reference what the reference does with it
     */
    public record PairView(String first, String second, Pair pair, String sentence, String reference) {}

    static CompareView of(CompareChoice choice, Wording wording) {
        List<String> names = names(choice.chosen());
        List<String> keys =
                choice.chosen().stream().map(CompareChoice.Chosen::key).toList();
        if (names.size() < 2) {
            return new CompareView(names, keys, null, "", List.of());
        }
        Comparison comparison = Comparison.of(
                choice.chosen().stream().map(CompareChoice.Chosen::line).toList());
        List<PairView> pairs = new ArrayList<>();
        for (int i = 0; i < comparison.pairs().size(); i++) {
            pairs.add(pair(names.get(0), names.get(i + 1), comparison.pairs().get(i), wording));
        }
        String title = wording.text("compare.chart", names.size());
        String description =
                String.join(" ", pairs.stream().map(PairView::sentence).toList());
        return new CompareView(
                names,
                keys,
                PlotJson.of(CompareChart.of(comparison, names, title, description, wording)),
                title,
                pairs);
    }

    private static PairView pair(String first, String second, Pair pair, Wording wording) {
        String sentence = pair.differences().isEmpty()
                ? wording.text("compare.no_common_speed", Wording.shown(first), Wording.shown(second))
                : pair.significant() > 0
                        ? wording.text(
                                "compare.differ",
                                Wording.shown(first),
                                Wording.shown(second),
                                pair.significant(),
                                pair.tested())
                        : wording.text(
                                "compare.no_difference",
                                Wording.shown(first),
                                Wording.shown(second),
                                pair.tested(),
                                pair.differences().size());
        String reference = wording.text(
                pair.sharedReference() ? "compare.same_reference" : "compare.other_reference",
                Wording.shown(pair.first().reference().name()));
        return new PairView(first, second, pair, sentence, reference);
    }

    /** Names a result by what tells it from the others: trial, surface, set-up, sensor; the trial where nothing does. */
    private static List<String> names(List<CompareChoice.Chosen> all) {
        boolean trials = all.stream().map(one -> one.line().trial()).distinct().count() > 1;
        boolean surfaces =
                all.stream().map(one -> one.line().material()).distinct().count() > 1;
        boolean setups = all.stream().map(one -> one.line().setup()).distinct().count() > 1;
        boolean sensors =
                all.stream().map(CompareChoice.Chosen::sensor).distinct().count() > 1;
        List<String> names = new ArrayList<>();
        for (CompareChoice.Chosen one : all) {
            List<String> parts = new ArrayList<>();
            add(parts, trials || !(surfaces || setups), one.title());
            add(parts, surfaces, one.line().material());
            add(parts, setups, one.line().setup());
            add(parts, sensors, one.sensor());
            names.add(String.join(", ", parts));
        }
        return names;
    }

    private static void add(List<String> parts, boolean wanted, String part) {
        if (wanted && !part.isBlank()) {
            parts.add(part);
        }
    }

    /** Returns the address of the same comparison without one result. */
    public String without(int index) {
        List<String> left = new ArrayList<>(keys);
        left.remove(index);
        return address("/compare", left);
    }

    /** Returns the address of the same comparison with another result first. */
    public String first(int index) {
        List<String> order = new ArrayList<>(keys);
        order.add(0, order.remove(index));
        return address("/compare", order);
    }

    /** Returns the address of the same comparison with one more result. */
    public String with(String key) {
        List<String> more = new ArrayList<>(keys);
        more.add(key);
        return address("/compare", more);
    }

    /** Returns the address of the comparison as a table of values. */
    public String csv() {
        return address("/compare.csv", keys);
    }

    private static String address(String path, List<String> keys) {
        StringBuilder address = new StringBuilder(path);
        for (String key : keys) {
            address.append(address.length() == path.length() ? '?' : '&')
                    .append("line=")
                    .append(URLEncoder.encode(key, StandardCharsets.UTF_8));
        }
        return address.toString();
    }

    /** Returns what is said of one difference, as key of the message bundles. */
    public static String verdict(Difference difference) {
        return difference.p() == null
                ? "compare.not_tested"
                : difference.significant() ? "compare.differs" : "compare.not_shown";
    }
}
