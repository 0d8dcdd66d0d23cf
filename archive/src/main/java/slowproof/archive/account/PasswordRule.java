package slowproof.archive.account;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;

/**
 * Which passwords are taken: 12 to 128 characters of any kind, and none that are tried first. There is no rule about kinds of
 * character: it makes passwords that are hard to keep in mind and easy to guess.
 */
final class PasswordRule {
    private static final int SHORTEST = 12;
    private static final int LONGEST = 128;
    private static final int LONGEST_PIECE = 6;
    // rows of common keyboards, forwards; a password that is a piece of one of them, or of two, is tried first
    private static final List<String> RUNS = List.of(
            "abcdefghijklmnopqrstuvwxyz",
            "qwertyuiopasdfghjklzxcvbnm",
            "qwertzuiopasdfghjklyxcvbnm",
            "12345678901234567890",
            "1qaz2wsx3edc4rfv5tgb",
            "passwordpassword",
            "passwortpasswort");

    private PasswordRule() {}

    /**
     * Refuses a password that is too short, too long or tried first.
     *
     * @throws AccountRefusedException with what is wrong
     */
    static void check(String name, String password) {
        int length = password.codePointCount(0, password.length());
        if (length < SHORTEST || length > LONGEST) {
            throw new AccountRefusedException(AccountRefusedException.Why.LENGTH);
        }
        String plain = Normalizer.normalize(password, Normalizer.Form.NFKC).toLowerCase(Locale.ROOT);
        boolean ofName = name.length() >= 3 && plain.contains(name.toLowerCase(Locale.ROOT));
        if (ofName || repeats(plain) || runsOnly(plain)) {
            throw new AccountRefusedException(AccountRefusedException.Why.GUESSED);
        }
    }

    /** A piece of at most six characters, over and over. */
    private static boolean repeats(String text) {
        for (int piece = 1; piece <= LONGEST_PIECE; piece++) {
            if (text.equals(
                    text.substring(0, piece).repeat(text.length() / piece + 1).substring(0, text.length()))) {
                return true;
            }
        }
        return false;
    }

    /** Nothing but stretches of five or more along known rows, with at most four other signs at the end. */
    private static boolean runsOnly(String text) {
        int at = 0;
        while (at < text.length()) {
            int longest = longestRun(text, at);
            if (longest < 5) {
                return at > 0 && text.length() - at <= 4;
            }
            at += longest;
        }
        return true;
    }

    private static int longestRun(String text, int from) {
        int longest = 0;
        for (String run : RUNS) {
            int length = longest;
            while (from + length < text.length() && run.contains(text.substring(from, from + length + 1))) {
                length++;
            }
            longest = length;
        }
        return longest;
    }
}
