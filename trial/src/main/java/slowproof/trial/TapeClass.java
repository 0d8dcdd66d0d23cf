package slowproof.trial;

import java.util.Locale;

/**
 * Accuracy classes of material measures of length (tapes, rules) after OIML R 35, the same figures as
 * Directive 2014/32/EU Annex X (MI-008) Chapter I: largest permissible error a + b L between two marks, L in
 * metres rounded up to the next whole metre. The figures are given from memory of these documents; the class
 * II and III figures at 2 m and 10 m agree with a public copy of the table.
 */
public enum TapeClass {
    /** 0.1 mm + 0.1 mm/m. */
    I(0.1, 0.1),
    /** 0.3 mm + 0.2 mm/m. */
    II(0.3, 0.2),
    /** 0.6 mm + 0.4 mm/m. */
    III(0.6, 0.4);

    private final double fixedMm;
    private final double perMetreMm;

    TapeClass(double fixedMm, double perMetreMm) {
        this.fixedMm = fixedMm;
        this.perMetreMm = perMetreMm;
    }

    /**
     * Returns the largest permissible error in mm.
     *
     * @param lengthMm measured length in mm, not negative
     */
    public double permissibleErrorMm(double lengthMm) {
        return fixedMm + perMetreMm * Math.ceil(Check.notNegative(lengthMm, "length", "mm") / 1000);
    }

    /** Returns the class of a written name such as "ii", or throws IllegalArgumentException. */
    public static TapeClass named(String name) {
        return valueOf(name.trim().toUpperCase(Locale.ROOT));
    }
}
