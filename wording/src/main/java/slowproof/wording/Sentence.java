package slowproof.wording;

import java.util.List;

/**
 * Fills a pattern of the bundles. {@code {0}} is an argument, {@code {0|one|many}} a word by its number,
 * {@code {0:table}} the sentence {@code table.<argument>} or the argument itself when there is none,
 * {@code {0?text}} the text when the argument is there and not empty. Other braces stand for themselves.
 */
final class Sentence {
    private final String pattern;
    private final List<?> arguments;
    private final Wording wording;
    private int at;

    private Sentence(String pattern, List<?> arguments, Wording wording) {
        this.pattern = pattern;
        this.arguments = arguments;
        this.wording = wording;
    }

    /** Returns the filled pattern. An argument that is missing shows as its placeholder. */
    static String fill(String pattern, List<?> arguments, Wording wording) {
        if (pattern.indexOf('{') < 0) {
            return pattern;
        }
        return new Sentence(pattern, arguments, wording).until(pattern.length());
    }

    private String until(int end) {
        StringBuilder text = new StringBuilder(end - at + 32);
        while (at < end) {
            char c = pattern.charAt(at);
            if (c == '{' && at + 1 < end && Character.isDigit(pattern.charAt(at + 1))) {
                placeholder(text);
            } else {
                text.append(c);
                at++;
            }
        }
        return text.toString();
    }

    private void placeholder(StringBuilder text) {
        int close = closing(at);
        int index = pattern.charAt(at + 1) - '0';
        Object argument = index < arguments.size() ? arguments.get(index) : null;
        char kind = pattern.charAt(at + 2);
        if (kind == '?') {
            at += 3;
            String inner = until(close);
            text.append(argument == null || "".equals(argument) ? "" : inner);
        } else if (argument == null) {
            text.append(pattern, at, close + 1);
        } else if (kind == '|') {
            boolean one = argument instanceof Number number && number.doubleValue() == 1;
            int bar = bar(at + 3);
            at = one ? at + 3 : bar + 1;
            text.append(until(one ? bar : close));
        } else if (kind == ':') {
            String word = argument.toString();
            String key = pattern.substring(at + 3, close) + '.' + word.replace(' ', '_');
            text.append(wording.has(key) ? wording.pattern(key) : word);
        } else {
            text.append(wording.argument(argument));
        }
        at = close + 1;
    }

    /** Returns where the word for one ends. */
    private int bar(int from) {
        int i = from;
        while (pattern.charAt(i) != '|') {
            i = pattern.charAt(i) == '{' ? closing(i) + 1 : i + 1;
        }
        return i;
    }

    private int closing(int open) {
        int depth = 0;
        for (int i = open; i < pattern.length(); i++) {
            char c = pattern.charAt(i);
            depth += c == '{' ? 1 : c == '}' ? -1 : 0;
            if (depth == 0) {
                return i;
            }
        }
        throw new IllegalStateException("brace without end: " + pattern);
    }
}
