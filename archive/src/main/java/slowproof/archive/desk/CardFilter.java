package slowproof.archive.desk;

import java.util.Locale;

/**
 * Which cards to list.
 *
 * @param words words that must all occur in what was typed; empty for any
 * @param state state; {@link State#ANY} for any
 * @param day today, ISO 8601: an open card that is due before it is overdue
 */
public record CardFilter(String words, State state, String day) {
    /** Where a card stands. The key of each word in the message bundles is {@code card.state.} and {@link #key()}. */
    public enum State {
        /** Whichever. */
        ANY,
        /** Something is still to be done. */
        OPEN,
        /** It was to be done before today and is not. */
        OVERDUE,
        /** Nothing is to be done. */
        DONE;

        /** Returns the word in addresses, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Returns a filter that lets every card through that has some words. */
    public static CardFilter of(String words) {
        return new CardFilter(words, State.ANY, "");
    }
}
