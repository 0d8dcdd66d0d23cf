package slowproof.files.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;

/** Finds the columns of a log that are wanted: by the trial's mapping, or by their headings. */
final class ColumnFinder {
    private static final String USUAL_REFERENCE = "reference_mm";

    private final Layout layout;
    private final LogRequest request;
    private final LogProblems problems;
    private final Map<ColumnRole, Target> found = new EnumMap<>(ColumnRole.class);
    private boolean fieldsDiffer;

    private ColumnFinder(Layout layout, LogRequest request, LogProblems problems) {
        this.layout = layout;
        this.request = request;
        this.problems = problems;
    }

    /** Returns the columns to read, in the order of their roles; what is missing or unclear is noted as a problem. */
    static List<Target> find(Layout layout, LogRequest request, LogProblems problems) {
        ColumnFinder finder = new ColumnFinder(layout, request, problems);
        if (request.columns().columns().isEmpty()) {
            finder.byHeadings();
        } else {
            request.columns().columns().entrySet().stream()
                    .filter(entry -> entry.getKey().belongsTo(request.part()))
                    .sorted(Map.Entry.comparingByKey())
                    .forEach(entry -> finder.byMapping(entry.getKey(), entry.getValue()));
        }
        finder.leaveOutOtherPart();
        if (!problems.any()) {
            finder.demand();
        }
        return finder.found.values().stream()
                .sorted(Comparator.comparing(Target::role))
                .toList();
    }

    private void byMapping(ColumnRole role, ColumnSource source) {
        int index = source.number() == null ? indexOf(source) : source.number() - 1;
        Layout.Misfit misfit = layout.misfit();
        if (index < 0 && misfit != null && misfit.cells().stream().anyMatch(cell -> bears(cell, source))) {
            fieldsDiffer(misfit);
            return;
        }
        if (index < 0 || index >= layout.cells()) {
            problems.add(
                    ProblemCode.LOG_COLUMN_NOT_THERE,
                    layout.hasHeadings() ? layout.headingLine() : layout.dataLine(),
                    0,
                    role.key(),
                    source.heading() == null ? String.valueOf(source.number()) : source.heading(),
                    layout.cells(),
                    layout.hasHeadings()
                            ? String.join(", ", layout.headings())
                            : String.join(", ", layout.firstCells()));
            return;
        }
        if (role == ColumnRole.LEVEL && source.threshold() == null) {
            problems.add(ProblemCode.LOG_THRESHOLD_MISSING, layout.headingLine(), index + 1, role.key());
            return;
        }
        String heading = layout.headings().get(index);
        String unit = source.unit();
        if (unit == null && contradictory(role, index)) {
            return;
        }
        if (unit == null) {
            String written = unitOf(index);
            unit = written == null ? suffix(heading, role) : written;
        }
        add(role, index, unit == null ? "" : unit, source.circumferenceMm(), source.threshold());
    }

    private static boolean bears(String heading, ColumnSource source) {
        return plain(heading).equals(plain(String.valueOf(source.heading())));
    }

    private int indexOf(ColumnSource source) {
        for (int i = 0; i < layout.cells(); i++) {
            if (bears(layout.headings().get(i), source)) {
                return i;
            }
        }
        return -1;
    }

    /** Notes, once, that the headings cannot be matched to the columns. */
    private void fieldsDiffer(Layout.Misfit misfit) {
        if (!fieldsDiffer) {
            problems.add(
                    ProblemCode.LOG_HEADING_FIELDS,
                    misfit.line(),
                    0,
                    "",
                    misfit.cells().size(),
                    layout.cells(),
                    layout.separator() == ',' ? "," : "");
        }
        fieldsDiffer = true;
    }

    private static boolean namesARole(String cell) {
        String base = withoutUnit(plain(cell)).replace(' ', '_');
        return Arrays.stream(ColumnRole.values())
                .flatMap(role -> role.names().stream())
                .anyMatch(name -> base.equals(name) || base.startsWith(name + "_"));
    }

    private static String plain(String heading) {
        return heading.strip().toLowerCase(Locale.ROOT);
    }

    /** Takes headings that are a role's usual name first; other words for it only where the usual one is absent. */
    private void byHeadings() {
        for (ColumnRole role : ColumnRole.values()) {
            // the speed of a line is looked for where it is wanted alone, and then nothing else but time
            if (role != ColumnRole.TIME && (role == ColumnRole.SPEED) != (request.part() == LogPart.SPEED)) {
                continue;
            }
            for (String name : role.names()) {
                if (role != ColumnRole.LEVEL && !found.containsKey(role)) {
                    byName(role, name);
                }
            }
        }
    }

    private void byName(ColumnRole role, String name) {
        for (int i = 0; i < layout.cells(); i++) {
            String unit = unitIfNamed(role, name, i);
            if (unit == null) {
                continue;
            }
            if (found.containsKey(role)) {
                second(role, found.get(role).index(), i);
            } else if (!contradictory(role, i)) {
                add(role, i, unit, null, null);
            }
        }
    }

    /** Notes that a second column bears the name of a role, with the same heading or another. */
    private void second(ColumnRole role, int first, int index) {
        String heading = layout.headings().get(index).strip();
        String before = layout.headings().get(first).strip();
        if (plain(before).equals(plain(heading))) {
            problems.add(ProblemCode.COLUMN_TWICE, layout.headingLine(), index + 1, heading, heading);
        } else {
            problems.add(
                    ProblemCode.LOG_COLUMN_TWO, layout.headingLine(), index + 1, heading, before, heading, role.key());
        }
    }

    /** Returns true, and notes it, when heading and row of units name different units for a column. */
    private boolean contradictory(ColumnRole role, int index) {
        List<String> units = role.dimension() == ColumnRole.Dimension.NONE || isStamps(role, index)
                ? List.of()
                : unitsWritten(role, index);
        if (units.size() < 2) {
            return false;
        }
        problems.add(
                ProblemCode.LOG_UNITS_TWO,
                layout.headingLine(),
                index + 1,
                layout.headings().get(index),
                units.get(0),
                units.get(1),
                role.key());
        return true;
    }

    /** Returns the different units written for a column: at the end of its heading, in brackets or after a stroke, and below. */
    private List<String> unitsWritten(ColumnRole role, int index) {
        String heading = withoutPreposition(layout.headings().get(index));
        List<@Nullable String> texts = new ArrayList<>();
        texts.add(suffix(withoutUnit(heading).replace(' ', '_'), role));
        if (role == ColumnRole.SPEED) {
            role.names().forEach(name -> texts.add(speedUnit(name, plain(heading))));
        }
        texts.add(unitInHeading(heading));
        List<String> units = new ArrayList<>();
        for (String text : texts) {
            LogUnit unit = text == null ? null : LogUnit.of(text);
            if (unit != null && unit.fits(role.dimension())) {
                units.add(unit.symbol());
            }
        }
        LogUnit below = LogUnit.of(LayoutFinder.bare(layout.units().get(index)));
        if (below != null) {
            units.add(below.symbol());
        }
        return units.stream().distinct().toList();
    }

    /** Returns the unit (empty for none) when the column bears the name, or null. */
    private @Nullable String unitIfNamed(ColumnRole role, String name, int index) {
        String heading = plain(withoutPreposition(layout.headings().get(index)));
        if (role == ColumnRole.SPEED) {
            String written = speedUnit(name, heading);
            if (written != null) {
                return written;
            }
        }
        String bracketed = unitOf(index);
        // above a row of units, brackets may hold a part of the name
        String own = unitInHeading(heading);
        boolean cut = layout.units().get(index).isEmpty() || (own != null && LogUnit.of(own) != null);
        String bare = bracketed == null || cut ? withoutUnit(heading) : heading;
        String base = bare.strip().replace(' ', '_');
        if (base.equals(name)) {
            return bracketed == null ? "" : bracketed;
        }
        boolean suffixed = role.dimension() != ColumnRole.Dimension.NONE && base.startsWith(name + "_");
        String rest = suffixed ? base.substring(name.length() + 1) : "";
        // "reference_speed_mm_s" is another quantity, not a reference in an unknown unit
        LogUnit unit = LogUnit.of(rest);
        boolean known = unit != null && unit.fits(role.dimension());
        LogUnit beside = bracketed == null ? null : LogUnit.of(bracketed);
        // with a unit of its own, the end of "axis_pos [mm]" is a part of the name, and another one than that of the
        // role
        boolean named = !known && beside != null && beside.fits(role.dimension());
        return suffixed && !named && (known || !rest.contains("_")) && !rest.equals("speed") ? rest : null;
    }

    /** Returns the unit of a heading such as {@code speed m/min} or {@code v_m/min}, whose stroke belongs to the unit. */
    private static @Nullable String speedUnit(String name, String heading) {
        String joined = heading.replaceAll("[ _/\\[\\]()]+", "_").replaceAll("_$", "");
        String rest = joined.startsWith(name + "_") ? joined.substring(name.length() + 1) : "";
        LogUnit unit = LogUnit.of(rest);
        return unit != null && unit.fits(ColumnRole.Dimension.SPEED) ? unit.symbol() : null;
    }

    /** Returns the unit written in the row of units, in brackets or after a stroke; null when there is none. */
    private @Nullable String unitOf(int index) {
        String below = LayoutFinder.bare(layout.units().get(index));
        return below.isEmpty() ? unitInHeading(layout.headings().get(index)) : below;
    }

    private static @Nullable String unitInHeading(String written) {
        String heading = written.strip();
        for (char open : new char[] {'[', '(', '/'}) {
            int at = heading.lastIndexOf(open);
            if (at > 0) {
                char close = open == '[' ? ']' : ')';
                String inside = heading.substring(at + 1);
                if (open == '/') {
                    return LogUnit.of(inside) == null ? null : inside.strip();
                }
                if (inside.endsWith(String.valueOf(close))) {
                    return inside.substring(0, inside.length() - 1).strip();
                }
            }
        }
        return null;
    }

    /** Returns "position mm" for "position in mm", and the like with brackets; the word is no unit there. */
    private static String withoutPreposition(String heading) {
        return heading.replaceFirst("(?i)\\s+in\\s+(?=[\\[(]?\\S+$)", " ");
    }

    private static String withoutUnit(String heading) {
        int cut = heading.length();
        for (char open : new char[] {'[', '(', '/'}) {
            int at = heading.lastIndexOf(open);
            cut = at > 0 ? Math.min(cut, at) : cut;
        }
        return heading.substring(0, cut).strip();
    }

    /** Returns the unit at the end of a heading such as {@code axis_mm}, or null. */
    private static @Nullable String suffix(String heading, ColumnRole role) {
        String plain = plain(heading);
        for (int at = plain.indexOf('_'); at >= 0; at = plain.indexOf('_', at + 1)) {
            LogUnit unit = LogUnit.of(plain.substring(at + 1));
            if (unit != null && unit.fits(role.dimension())) {
                return unit.symbol();
            }
        }
        return null;
    }

    private boolean isStamps(ColumnRole role, int index) {
        String cell = layout.firstCells().get(index);
        return role == ColumnRole.TIME
                && Double.isNaN(CellNumber.parse(cell, layout.decimal()))
                && TimeStamps.looksLike(cell);
    }

    /** Returns true when the first time is no number; where its unit is known, only when it looks like a clock. */
    private boolean oddStamp(int index, boolean unitKnown) {
        String cell = layout.firstCells().get(index);
        boolean number = CellNumber.readable(cell, '.')
                || CellNumber.readable(cell, ',')
                || CellNumber.notFiniteWord(cell)
                || Thousands.byComma(cell)
                || Thousands.byPoint(cell);
        return !number && !cell.isBlank() && (!unitKnown || cell.indexOf(':') > 0);
    }

    private void add(
            ColumnRole role,
            int index,
            String unitText,
            @Nullable Double ownCircumference,
            @Nullable Double threshold) {
        String heading = layout.headings().get(index);
        boolean stamps = isStamps(role, index);
        LogUnit unit = LogUnit.NONE;
        if (role.dimension() != ColumnRole.Dimension.NONE && !stamps) {
            LogUnit known = LogUnit.of(unitText);
            if (role == ColumnRole.TIME && oddStamp(index, known != null)) {
                problems.add(
                        ProblemCode.LOG_STAMP,
                        layout.dataLine(),
                        index + 1,
                        heading,
                        Cells.shown(layout.firstCells().get(index)),
                        TimeStamps.FORMS);
                return;
            }
            if (known == null || !known.fits(role.dimension())) {
                problems.add(
                        ProblemCode.UNKNOWN_UNIT,
                        layout.hasHeadings() ? layout.headingLine() : layout.dataLine(),
                        index + 1,
                        heading,
                        heading.isEmpty() ? role.key() : heading,
                        role.dimension().suffixes());
                return;
            }
            unit = known;
        }
        double factor = unit.factor();
        if (unit.angle()) {
            Double circumference = ownCircumference == null ? request.circumferenceMm() : ownCircumference;
            if (circumference == null) {
                problems.add(
                        ProblemCode.LOG_CIRCUMFERENCE_MISSING, layout.headingLine(), index + 1, heading, unit.symbol());
                return;
            }
            factor *= circumference;
        }
        found.put(role, new Target(role, index, heading, unit, factor, unit.divisor(), stamps, threshold));
    }

    private void leaveOutOtherPart() {
        found.keySet().removeIf(role -> !role.belongsTo(request.part()));
        // one indication: a count is closer to the sensor than levels, and both closer than a reading
        if (found.containsKey(ColumnRole.COUNT)) {
            found.remove(ColumnRole.READING);
            found.remove(ColumnRole.CHANNEL_A);
            found.remove(ColumnRole.CHANNEL_B);
        } else if (found.containsKey(ColumnRole.CHANNEL_A) && found.containsKey(ColumnRole.CHANNEL_B)) {
            found.remove(ColumnRole.READING);
        }
        if (found.containsKey(ColumnRole.DROPOUT)) {
            found.remove(ColumnRole.VALID);
            found.remove(ColumnRole.LEVEL);
        } else if (found.containsKey(ColumnRole.VALID)) {
            found.remove(ColumnRole.LEVEL);
        }
    }

    private void demand() {
        if (!found.containsKey(ColumnRole.TIME)) {
            missing("time_s");
        }
        if (request.part() == LogPart.SPEED) {
            if (!found.containsKey(ColumnRole.SPEED)) {
                missing("speed_m_min");
            }
            return;
        }
        boolean channels = found.containsKey(ColumnRole.CHANNEL_A) && found.containsKey(ColumnRole.CHANNEL_B);
        boolean indication = channels || found.containsKey(ColumnRole.COUNT) || found.containsKey(ColumnRole.READING);
        if (!indication && request.part() != LogPart.REFERENCE) {
            missing("count");
        }
        if (!found.containsKey(ColumnRole.REFERENCE) && request.part() != LogPart.SENSOR) {
            missing(USUAL_REFERENCE);
        }
    }

    private void missing(String usual) {
        Layout.Misfit misfit = layout.misfit();
        if (misfit != null && misfit.cells().stream().anyMatch(ColumnFinder::namesARole)) {
            fieldsDiffer(misfit);
        } else if (layout.hasHeadings()) {
            boolean alone = usual.equals(USUAL_REFERENCE) && request.part() == LogPart.BOTH;
            problems.add(
                    alone ? ProblemCode.REFERENCE_MISSING : ProblemCode.COLUMN_MISSING,
                    layout.headingLine(),
                    0,
                    "",
                    usual,
                    String.join(", ", layout.headings()));
        } else {
            problems.add(
                    ProblemCode.LOG_NO_HEADINGS,
                    layout.dataLine(),
                    0,
                    "",
                    usual,
                    layout.cells(),
                    String.join(" | ", layout.firstCells()));
        }
    }

    /** Returns true when a column bears a name of a role, with a unit that the role can have where it needs one. */
    static boolean couldBe(ColumnRole role, Layout layout, LogRequest request, int index) {
        ColumnFinder finder = new ColumnFinder(layout, request, new LogProblems(request.name()));
        if (role.names().stream().allMatch(name -> finder.unitIfNamed(role, name, index) == null)) {
            return false;
        }
        return finder.isStamps(role, index)
                || role.dimension() == ColumnRole.Dimension.NONE
                || !finder.unitsWritten(role, index).isEmpty();
    }
}
