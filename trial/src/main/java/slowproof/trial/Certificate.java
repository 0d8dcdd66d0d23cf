package slowproof.trial;

import java.util.Objects;

/**
 * What the certificate of a reference says about itself, as it stands on the paper; every part is empty when unknown.
 *
 * @param number its number or other identification
 * @param issuedBy who issued it
 * @param date when, in the words of the certificate
 * @param traceableTo what it names as the standard that it is traceable to
 */
public record Certificate(String number, String issuedBy, String date, String traceableTo) {
    /** No certificate is known. */
    public static final Certificate NONE = new Certificate("", "", "", "");

    /** Checks the parts. */
    public Certificate {
        Objects.requireNonNull(number, "number");
        Objects.requireNonNull(issuedBy, "issuedBy");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(traceableTo, "traceableTo");
    }

    /** Returns true when nothing is known of it. */
    public boolean isEmpty() {
        return equals(NONE);
    }
}
