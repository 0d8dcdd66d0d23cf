package slowproof.report.answer;

/** Data inside a document. */
public final class Attachment {
    private final String name;
    private final String description;
    private final byte[] content;

    /**
     * Creates it.
     *
     * @param name file name
     * @param description what it is
     * @param content its bytes
     */
    public Attachment(String name, String description, byte[] content) {
        this.name = name;
        this.description = description;
        this.content = content.clone();
    }

    /** Returns the file name. */
    public String name() {
        return name;
    }

    /** Returns what it is. */
    public String description() {
        return description;
    }

    /** Returns a copy of its bytes. */
    public byte[] content() {
        return content.clone();
    }
}
