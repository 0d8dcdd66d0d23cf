package slowproof.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import slowproof.trial.findings.Answer;

/** Lists speeds in words: "35, 45 and 55 mm/s". */
final class Speeds {
    private static final int LISTED = 4;

    private final Wording wording;

    Speeds(Wording wording) {
        this.wording = wording;
    }

    /** Returns one speed with its unit. */
    String one(double speedMmPerS) {
        return number(speedMmPerS) + " " + wording.units().speed().symbol();
    }

    private String number(double speedMmPerS) {
        return wording.units().speedNumber(speedMmPerS, wording.numbers());
    }

    /** Returns an estimated speed to the digits that its uncertainty in mm/s leaves. */
    String rounded(double speedMmPerS, double uncertaintyMmPerS) {
        return digits(speedMmPerS, uncertaintyMmPerS) + " "
                + wording.units().speed().symbol();
    }

    /** Returns the range of two estimated speeds to the digits that their uncertainty in mm/s leaves. */
    String rounded(double slowMmPerS, double fastMmPerS, double uncertaintyMmPerS) {
        return wording.text(
                "speeds.range", digits(slowMmPerS, uncertaintyMmPerS), rounded(fastMmPerS, uncertaintyMmPerS));
    }

    private String digits(double speedMmPerS, double uncertaintyMmPerS) {
        Units.Speed unit = wording.units().speed();
        int decimals = Numbers.decimalsFor(unit.fromMmPerS(uncertaintyMmPerS));
        return wording.numbers().fixed(unit.fromMmPerS(speedMmPerS), Math.max(0, decimals));
    }

    /** Returns "63 to 250 mm/s", or the one speed. */
    String range(double slowest, double fastest) {
        return slowest == fastest ? one(slowest) : wording.text("speeds.range", number(slowest), one(fastest));
    }

    /** Returns all speeds with one unit; many neighbours among the tested ones as a range. */
    String list(List<Double> ascending, NavigableMap<Double, Answer> tested) {
        int n = ascending.size();
        double slowest = ascending.get(0);
        double fastest = ascending.get(n - 1);
        if (n > LISTED && tested.subMap(slowest, true, fastest, true).size() == n) {
            return range(slowest, fastest);
        }
        return list(ascending);
    }

    /** Returns all speeds with one unit. */
    String list(List<Double> ascending) {
        int n = ascending.size();
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < n - 1; i++) {
            text.append(number(ascending.get(i))).append(i < n - 2 ? ", " : wording.text("speeds.and"));
        }
        return text.append(one(ascending.get(n - 1))).toString();
    }

    /** Returns the tested speeds with an answer, ascending. */
    static List<Double> with(Answer answer, Map<Double, Answer> tested) {
        List<Double> speeds = new ArrayList<>();
        for (Map.Entry<Double, Answer> entry : tested.entrySet()) {
            if (entry.getValue() == answer) {
                speeds.add(entry.getKey());
            }
        }
        return speeds;
    }
}
