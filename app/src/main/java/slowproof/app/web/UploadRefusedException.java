package slowproof.app.web;

import slowproof.wording.Wording;

/** A file that was not taken in, with the sentence that says why and what to do. */
final class UploadRefusedException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String key;
    private final transient Object[] arguments;

    UploadRefusedException(String key, Object... arguments) {
        super(key);
        this.key = key;
        this.arguments = arguments;
    }

    String sentence(Wording wording) {
        return wording.text(key, arguments);
    }
}
