package slowproof.metrology.statistics;

import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/** Points and weights of a Gauss-Legendre rule on an interval. */
final class Rule {
    private static final GaussIntegrator SIXTEEN = new GaussIntegratorFactory().legendre(16, -1, 1);
    private static final GaussIntegrator EIGHTY = new GaussIntegratorFactory().legendre(80, -1, 1);

    private final GaussIntegrator unit;
    private final double centre;
    private final double half;

    private Rule(GaussIntegrator unit, double low, double high) {
        this.unit = unit;
        centre = low + (high - low) / 2;
        half = (high - low) / 2;
    }

    static Rule sixteen(double low, double high) {
        return new Rule(SIXTEEN, low, high);
    }

    static Rule eighty(double low, double high) {
        return new Rule(EIGHTY, low, high);
    }

    int size() {
        return unit.getNumberOfPoints();
    }

    double point(int index) {
        return centre + half * unit.getPoint(index);
    }

    double weight(int index) {
        return half * unit.getWeight(index);
    }
}
