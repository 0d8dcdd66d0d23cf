package slowproof.metrology.regression;

import slowproof.metrology.Check;

/** Small dense helpers on row arrays, and the argument checks of this package. */
final class Matrices {
    private Matrices() {}

    static double dot(double[] a, double[] b) {
        if (a.length != b.length) {
            throw new IllegalArgumentException("expected " + b.length + " numbers, got " + a.length);
        }
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    static double quadraticForm(double[] v, double[][] matrix) {
        double sum = 0;
        for (int i = 0; i < v.length; i++) {
            sum += v[i] * dot(v, matrix[i]);
        }
        return sum;
    }

    static double sumOfSquares(double[] v) {
        return dot(v, v);
    }

    static double[][] copy(double[][] rows) {
        double[][] result = new double[rows.length][];
        for (int i = 0; i < rows.length; i++) {
            result[i] = rows[i].clone();
        }
        return result;
    }

    /** Checks that all rows are as long as the first, hold finite numbers and match the responses. */
    static void checkDesign(double[][] rows, double[] y) {
        if (rows.length == 0 || rows[0].length == 0) {
            throw new IllegalArgumentException("a fit needs at least one row and one column");
        }
        sameLength(rows.length, y.length, "responses");
        for (double[] row : rows) {
            sameLength(rows[0].length, row.length, "entries in each row");
            Check.allFinite(row, "entries of the design");
        }
        Check.allFinite(y, "responses");
        if (rows.length < rows[0].length) {
            throw new IllegalArgumentException(
                    rows.length + " rows cannot determine " + rows[0].length + " coefficients");
        }
    }

    static void sameLength(int expected, int found, String what) {
        if (expected != found) {
            throw new IllegalArgumentException("expected " + expected + " " + what + ", got " + found);
        }
    }

    static void positive(double[] values, String what) {
        for (double value : values) {
            Check.positive(value, what);
        }
    }
}
