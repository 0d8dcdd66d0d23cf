package slowproof.wording;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.BudgetSource;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.Quantity;

/** Makes sentences of codes, in one language and with the units that a reader prefers. Immutable. */
public final class Wording {
    /** Problems shown before the rest is only counted. */
    private static final int PROBLEMS_SHOWN = 20;

    private static final int CHARACTERS_SHOWN = 240;

    private final Locale locale;
    private final Bundle bundle;
    private final Numbers numbers;
    private final Units units;

    private Wording(Locale locale, Bundle bundle, Numbers numbers, Units units) {
        this.locale = locale;
        this.bundle = bundle;
        this.numbers = numbers;
        this.units = units;
    }

    /** Returns the wording of a language with mm and mm/s; a language that is not known is answered in English. */
    public static Wording of(Locale locale) {
        return of(locale, Units.MILLIMETRES);
    }

    /** Returns the wording of a language in units of choice; a language that is not known is answered in English. */
    public static Wording of(Locale locale, Units units) {
        return isGerman(locale)
                ? new Wording(Locale.GERMAN, Bundle.German.BUNDLE, Numbers.of(Locale.GERMAN), units)
                : new Wording(Locale.ENGLISH, Bundle.English.BUNDLE, Numbers.of(Locale.ENGLISH), units);
    }

    /** Returns the same wording with the sentences of the pages as well. */
    public Wording withPages() {
        Bundle pages = isGerman(locale) ? Bundle.GermanPages.BUNDLE : Bundle.EnglishPages.BUNDLE;
        return new Wording(locale, pages, numbers, units);
    }

    /** Returns the same wording with the sentences of the written answer as well. */
    public Wording withAnswer() {
        Bundle answer = isGerman(locale) ? Bundle.GermanAnswer.BUNDLE : Bundle.EnglishAnswer.BUNDLE;
        return new Wording(locale, answer, numbers, units);
    }

    /** Returns the same wording in units of choice. */
    public Wording in(Units preferred) {
        return new Wording(locale, bundle, numbers, preferred);
    }

    static boolean isGerman(Locale locale) {
        return locale.getLanguage().equals("de");
    }

    /** Returns the language: English or German. */
    public Locale locale() {
        return locale;
    }

    /** Returns the number formatter. */
    public Numbers numbers() {
        return numbers;
    }

    /** Returns the units preferred. */
    public Units units() {
        return units;
    }

    /**
     * Returns a sentence of the bundle, filled.
     *
     * @param key key of the bundle
     * @param arguments text, numbers, {@link Quantity quantities}, or lists of them
     * @return the sentence; the key itself when there is none
     */
    public String text(String key, Object... arguments) {
        return filled(key, List.of(arguments));
    }

    /** Returns true when the bundle has a sentence of this key. */
    public boolean has(String key) {
        return bundle.find(key) != null;
    }

    /** Returns a number with its unit, in the units preferred. */
    public String quantity(Quantity quantity) {
        return units.written(quantity, numbers);
    }

    /** Returns an answer as words. */
    public String answer(Answer answer) {
        return text("answer." + answer.key().replace(' ', '_'));
    }

    /** Returns a direction as a word. */
    public String direction(Direction direction) {
        return text("direction." + direction.key());
    }

    /** Returns what a flag means. */
    public String flag(Flag flag) {
        return text("flag." + flag.key());
    }

    /** Returns why a figure is not available. */
    public String reason(ReasonCode reason) {
        return text("reason." + reason.key());
    }

    /** Returns a source of uncertainty as words. */
    public String source(BudgetSource source) {
        return text("source." + source.key());
    }

    /** Returns the sentence of a remark, without what it speaks of; see {@link #where}. */
    public String note(Note note) {
        return filled("note." + note.code().key(), note.arguments());
    }

    /**
     * Returns what a remark speaks of, with the direction as a word of the language and its decimal sign before
     * units.
     *
     * @return empty for the whole trial
     */
    public String where(Note note) {
        String where = note.where();
        for (Direction direction : new Direction[] {Direction.FORWARD, Direction.RETURN}) {
            String tail = ", " + direction.key();
            if (where.endsWith(tail)) {
                where = where.substring(0, where.length() - tail.length()) + ", " + direction(direction);
            }
        }
        return shown(numbers.decimalSign() == '.' ? where : withDecimalSign(where));
    }

    private String withDecimalSign(String where) {
        int unit = where.indexOf(" mm/s");
        if (unit < 0) {
            return where;
        }
        int start = where.lastIndexOf(' ', unit - 1) + 1;
        String speed = where.substring(start, unit).replace('.', numbers.decimalSign());
        return where.substring(0, start) + speed + where.substring(unit);
    }

    /** Returns a problem with its place: what was found, what was expected, how to mend it. */
    public String problem(InputProblem problem) {
        String sentence = filled("problem." + problem.code().key(), problem.arguments());
        String text = place(problem.at()) + ": " + sentence;
        return problem.code().isQuestion()
                ? text + " " + text("problem.confirm", problem.code().key())
                : text;
    }

    /**
     * Returns problems one a line, ordered by file (as first met), line and column; from the twenty-first on they
     * are only counted.
     */
    public String problems(List<InputProblem> problems) {
        Map<String, Integer> files = new LinkedHashMap<>();
        problems.forEach(problem -> files.putIfAbsent(problem.at().file(), files.size()));
        List<InputProblem> ordered = new ArrayList<>(problems);
        ordered.sort(Comparator.<InputProblem>comparingInt(
                        problem -> files.getOrDefault(problem.at().file(), 0))
                .thenComparingLong(problem -> problem.at().line())
                .thenComparingInt(problem -> problem.at().column()));
        StringBuilder text = new StringBuilder();
        for (InputProblem problem : ordered.subList(0, Math.min(PROBLEMS_SHOWN, ordered.size()))) {
            text.append(problem(problem)).append('\n');
        }
        int more = ordered.size() - PROBLEMS_SHOWN;
        if (more > 0) {
            text.append(text("problem.more", more)).append('\n');
        }
        return text.toString();
    }

    /** Returns a place as an editor shows it: file, line, column (field). */
    public String place(SourcePosition at) {
        StringBuilder text = new StringBuilder(shown(at.file()));
        if (at.line() > 0) {
            text.append(", ").append(text("place.line")).append(' ').append(at.line());
        }
        if (at.column() > 0) {
            text.append(", ").append(text("place.column")).append(' ').append(at.column());
        }
        if (!at.field().isEmpty()) {
            text.append(" (").append(shown(at.field())).append(')');
        }
        return text.toString();
    }

    Set<String> keys() {
        return bundle.keys();
    }

    String pattern(String key) {
        String pattern = bundle.find(key);
        return pattern == null ? key : pattern;
    }

    private String filled(String key, List<?> arguments) {
        return Sentence.fill(pattern(key), arguments, this);
    }

    String argument(Object argument) {
        if (argument instanceof Quantity quantity) {
            return quantity(quantity);
        }
        if (argument instanceof List<?> parts) {
            boolean nested = !parts.isEmpty() && parts.get(0) instanceof List<?>;
            return parts.stream().map(this::argument).collect(Collectors.joining(nested ? "; " : ", "));
        }
        if (argument instanceof Integer || argument instanceof Long) {
            return numbers.whole(((Number) argument).longValue());
        }
        if (argument instanceof Number number) {
            return numbers.plain(number.doubleValue());
        }
        return shown(argument.toString());
    }

    /** Shortens text from a file and makes its control characters visible, so that it can do no harm on a terminal. */
    public static String shown(String text) {
        if (isClean(text)) {
            return text;
        }
        StringBuilder out = new StringBuilder();
        int end = Math.min(text.length(), CHARACTERS_SHOWN);
        for (int i = 0; i < end; i++) {
            char c = text.charAt(i);
            out.append(c == '\t' ? '\u21e5' : invisible(c) ? '\ufffd' : c);
        }
        return end < text.length() ? out.append('\u2026').toString() : out.toString();
    }

    private static boolean isClean(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (invisible(text.charAt(i))) {
                return false;
            }
        }
        return text.length() <= CHARACTERS_SHOWN;
    }

    private static boolean invisible(int c) {
        // bidirectional controls can make a terminal show another order than is written
        return Character.isISOControl(c) || (c >= 0x200b && c <= 0x200f) || (c >= 0x202a && c <= 0x202e) || c == 0xfeff;
    }
}
