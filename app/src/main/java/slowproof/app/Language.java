package slowproof.app;

import java.util.Locale;

/** Languages of texts. */
enum Language {
    en(Locale.ENGLISH),
    de(Locale.GERMAN);

    private final Locale locale;

    Language(Locale locale) {
        this.locale = locale;
    }

    Locale locale() {
        return locale;
    }
}
