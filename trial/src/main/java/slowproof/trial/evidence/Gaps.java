package slowproof.trial.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import slowproof.trial.evidence.Evidence.Point;
import slowproof.trial.evidence.Gap.Kind;

/** Finds what evidence does not cover. Works once and is dropped. */
final class Gaps {
    /** Below this the names are not the same words; a hair below 1, because it is a computed share. */
    private static final double SAME = 1 - 1e-9;

    private final List<Gap> gaps = new ArrayList<>();

    private Gaps() {}

    static List<Gap> of(Inquiry inquiry, Evidence evidence) {
        Gaps found = new Gaps();
        found.find(inquiry, evidence);
        return found.gaps;
    }

    private void find(Inquiry inquiry, Evidence evidence) {
        double likeness = NameLikeness.of(inquiry.material(), evidence.material());
        if (likeness < SAME) {
            gaps.add(new Gap(Kind.OTHER_MATERIAL, null, likeness));
        }
        if (!evidence.referenceKnown()) {
            gaps.add(new Gap(Kind.REFERENCE_UNKNOWN, null, null));
        }
        double coarsest = evidence.points().stream()
                .map(Point::referenceUncertainty)
                .filter(Objects::nonNull)
                .mapToDouble(Double::doubleValue)
                .max()
                .orElse(0);
        if (coarsest > inquiry.permitted()) {
            gaps.add(new Gap(Kind.REFERENCE_TOO_COARSE, inquiry.toleranceMm(), coarsest * inquiry.pieceMm()));
        }
        below(Kind.SLOWER, inquiry.slowestMmPerS(), evidence.slowestMmPerS(), 1);
        above(Kind.FASTER, inquiry.upTo(), evidence.fastestMmPerS(), 1);
        accelerations(inquiry, evidence);
        above(Kind.LONGER, inquiry.pieceMm(), evidence.longestMm(), Distance.TRIED_FACTOR);
        below(Kind.SHORTER, inquiry.pieceMm(), evidence.shortestMm(), Distance.TRIED_FACTOR);
    }

    private void accelerations(Inquiry inquiry, Evidence evidence) {
        Double gentlest = inquiry.gentlestMmPerS2();
        Double hardest = inquiry.hardestMmPerS2();
        Double low = evidence.slowestAccelerationMmPerS2();
        Double high = evidence.fastestAccelerationMmPerS2();
        if (low == null || high == null) {
            if (gentlest != null || hardest != null) {
                gaps.add(new Gap(Kind.ACCELERATION_UNKNOWN, gentlest == null ? hardest : gentlest, null));
            }
            return;
        }
        if (gentlest != null) {
            below(Kind.GENTLER, gentlest, low, Distance.TRIED_FACTOR);
        }
        if (hardest != null) {
            above(Kind.HARDER, hardest, high, Distance.TRIED_FACTOR);
        }
    }

    private void below(Kind kind, double asked, double tried, double factor) {
        if (asked < tried / factor) {
            gaps.add(new Gap(kind, asked, tried));
        }
    }

    private void above(Kind kind, double asked, double tried, double factor) {
        if (asked > tried * factor) {
            gaps.add(new Gap(kind, asked, tried));
        }
    }
}
