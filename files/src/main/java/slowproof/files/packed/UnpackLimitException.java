package slowproof.files.packed;

import java.io.IOException;

/** A packed file holds far more than a recording of its size can. */
public final class UnpackLimitException extends IOException {
    private static final long serialVersionUID = 1L;

    private final long limitBytes;

    UnpackLimitException(long limitBytes) {
        super("unpacks to more than " + limitBytes + " bytes");
        this.limitBytes = limitBytes;
    }

    /** Returns how much the file may hold, in bytes. */
    public long limitBytes() {
        return limitBytes;
    }
}
