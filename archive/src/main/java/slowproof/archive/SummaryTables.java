package slowproof.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import slowproof.archive.summary.ConditionSummary;
import slowproof.archive.summary.SurfaceSummary;
import slowproof.trial.evidence.NameLikeness;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Standing;

/** Writes surfaces and conditions of summaries to their tables, and reads them. */
final class SummaryTables {
    private SummaryTables() {}

    static void insert(Handle handle, String trial, int place, SurfaceSummary surface) {
        handle.execute(
                "insert into summary_surface (trial_id, place, material, material_key, standing, floor_status, slowest,"
                        + " fastest, fails_at, holds_from, floor_estimate, slowest_acceleration,"
                        + " fastest_acceleration, shortest, longest, limit_ratio, limit_mm, reference_known)"
                        + " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                trial,
                place,
                Archive.storable(surface.material()),
                NameLikeness.key(Archive.storable(surface.material())),
                surface.standing().key(),
                surface.floor().key(),
                surface.slowestMmPerS(),
                surface.fastestMmPerS(),
                surface.failsAtMmPerS(),
                surface.holdsFromMmPerS(),
                surface.floorMmPerS(),
                surface.slowestAccelerationMmPerS2(),
                surface.fastestAccelerationMmPerS2(),
                surface.shortestMm(),
                surface.longestMm(),
                surface.limitRatio(),
                surface.limitMm(),
                surface.referenceKnown() ? 1 : 0);
        for (int row = 0; row < surface.conditions().size(); row++) {
            ConditionSummary condition = surface.conditions().get(row);
            handle.execute(
                    "insert into summary_condition (trial_id, place, row_number, setup, direction, speed,"
                            + " acceleration, passes, length, error, uncertainty, pass_uncertainty, pass_freedom,"
                            + " reference_uncertainty) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                    trial,
                    place,
                    row,
                    Archive.storable(condition.setup()),
                    condition.direction().key(),
                    condition.speedMmPerS(),
                    condition.accelerationMmPerS2(),
                    condition.passes(),
                    condition.lengthMm(),
                    condition.error(),
                    condition.uncertainty(),
                    condition.passUncertainty(),
                    condition.passFreedom(),
                    condition.referenceUncertainty());
        }
    }

    static ConditionSummary condition(ResultSet row) throws SQLException {
        return new ConditionSummary(
                row.getString("setup"),
                Direction.valueOf(row.getString("direction").toUpperCase(Locale.ROOT)),
                row.getDouble("speed"),
                number(row, "acceleration"),
                row.getInt("passes"),
                row.getDouble("length"),
                row.getDouble("error"),
                row.getDouble("uncertainty"),
                number(row, "pass_uncertainty"),
                number(row, "pass_freedom"),
                number(row, "reference_uncertainty"));
    }

    static SurfaceSummary surface(ResultSet row) throws SQLException {
        return new SurfaceSummary(
                row.getString("material"),
                Standing.valueOf(row.getString("standing").toUpperCase(Locale.ROOT)),
                FloorSpeed.Status.ofKey(row.getString("floor_status")),
                row.getDouble("slowest"),
                row.getDouble("fastest"),
                number(row, "fails_at"),
                number(row, "holds_from"),
                number(row, "floor_estimate"),
                number(row, "slowest_acceleration"),
                number(row, "fastest_acceleration"),
                row.getDouble("shortest"),
                row.getDouble("longest"),
                number(row, "limit_ratio"),
                number(row, "limit_mm"),
                row.getInt("reference_known") == 1,
                List.of());
    }

    static @Nullable Double number(ResultSet row, int column) throws SQLException {
        double value = row.getDouble(column);
        return row.wasNull() ? null : value;
    }

    private static @Nullable Double number(ResultSet row, String column) throws SQLException {
        double value = row.getDouble(column);
        return row.wasNull() ? null : value;
    }
}
