package slowproof.trial.curve;

import java.util.Arrays;
import java.util.List;
import slowproof.trial.spectrum.KnotDistances;

/**
 * What the fit works on: one row per condition, divided by its standard uncertainty, rows by ascending speed.
 * Two layouts of the same design, so that both directions of the product run along contiguous memory.
 */
final class FitData {
    // largest step between nodes in ln v
    private static final double NODE_STEP = 0.08;

    final int rows;
    final int nodes;
    final double[] nodeMmPerS;
    /** ln v of the nodes, ascending. */
    final double[] x;
    /** Widths of the segments between nodes in ln v. */
    final double[] dx;
    /** Weighted design by rows: row j begins at {@code j * nodes}. */
    final double[] byRow;
    /** Weighted design by columns: column k begins at {@code k * rows}. */
    final double[] byColumn;
    /** Per row the number of leading columns that are not all zero. */
    final int[] columnsOfRow;
    /** Per column the first row that is not zero; rows after it may be. */
    final int[] firstRowOfColumn;
    /** Weighted number of starts per row. */
    final double[] starts;
    /** Weighted mean errors. */
    final double[] y;
    /** First segment of each gap between tested speeds, and the number of segments as the last entry. */
    final int[] gapStart;

    /**
     * Weighs the rows.
     *
     * @param rowsBySpeed the conditions
     * @param testedMmPerS the tested speeds in mm/s, ascending, at least two; nodes lie there and evenly between in ln v
     * @param variances variance of each row's mean error in mm², greater than 0
     */
    FitData(List<ConditionRow> rowsBySpeed, double[] testedMmPerS, double[] variances) {
        rows = rowsBySpeed.size();
        int[] parts = new int[testedMmPerS.length - 1];
        gapStart = new int[testedMmPerS.length];
        for (int i = 0; i < parts.length; i++) {
            double ratio = testedMmPerS[i + 1] / testedMmPerS[i];
            parts[i] = Math.max(1, (int) Math.ceil(Math.log(ratio) / NODE_STEP - 1e-9));
            gapStart[i + 1] = gapStart[i] + parts[i];
        }
        nodeMmPerS = new double[gapStart[parts.length] + 1];
        for (int i = 0; i < parts.length; i++) {
            double ratio = testedMmPerS[i + 1] / testedMmPerS[i];
            for (int p = 0; p < parts[i]; p++) {
                nodeMmPerS[gapStart[i] + p] = testedMmPerS[i] * Math.pow(ratio, (double) p / parts[i]);
            }
        }
        nodeMmPerS[nodeMmPerS.length - 1] = testedMmPerS[testedMmPerS.length - 1];
        nodes = nodeMmPerS.length;
        x = new double[nodes];
        for (int k = 0; k < nodes; k++) {
            x[k] = Math.log(nodeMmPerS[k]);
        }
        dx = new double[nodes - 1];
        for (int k = 0; k < nodes - 1; k++) {
            dx[k] = x[k + 1] - x[k];
        }
        byRow = new double[rows * nodes];
        byColumn = new double[rows * nodes];
        columnsOfRow = new int[rows];
        firstRowOfColumn = new int[nodes];
        Arrays.fill(firstRowOfColumn, rows);
        starts = new double[rows];
        y = new double[rows];
        for (int j = 0; j < rows; j++) {
            ConditionRow row = rowsBySpeed.get(j);
            double weight = 1 / Math.sqrt(variances[j]);
            KnotDistances distances = row.spectrum().onKnots(nodeMmPerS);
            for (int k = 0; k < nodes; k++) {
                // travel below the slowest node: the curve is held constant there
                double distance = distances.distanceMm(k) + (k == 0 ? distances.belowMm() : 0);
                byRow[j * nodes + k] = weight * distance;
                byColumn[k * rows + j] = weight * distance;
                if (distance != 0) {
                    columnsOfRow[j] = k + 1;
                    firstRowOfColumn[k] = Math.min(firstRowOfColumn[k], j);
                }
            }
            starts[j] = weight * row.starts();
            y[j] = weight * row.meanErrorMm();
        }
    }
}
