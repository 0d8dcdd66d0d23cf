package slowproof.report.answer;

import java.util.List;

/**
 * A document before it is laid out.
 *
 * @param title title, on every page
 * @param state draft, or released by whom and when; on every page
 * @param watermark large faint word across every page; empty for none
 * @param program program and its version, on every page
 * @param fingerprint fingerprint of the input, on every page
 * @param pageOf words "page {page} of {pages}" in two parts: before the page and before the count
 * @param language language of the text, such as "en"
 * @param paper size of the page
 * @param stamp date of the release, ISO 8601, or empty for a draft: the only time that the document knows
 * @param blocks parts
 * @param attachments data inside, the machine-readable answer first
 */
public record Answer(
        String title,
        String state,
        String watermark,
        String program,
        String fingerprint,
        List<String> pageOf,
        String language,
        Paper paper,
        String stamp,
        List<Block> blocks,
        List<Attachment> attachments) {
    /** Copies the lists. */
    public Answer {
        pageOf = List.copyOf(pageOf);
        blocks = List.copyOf(blocks);
        attachments = List.copyOf(attachments);
    }
}
