/**
 * What happens around trials: questions that were asked and answered, samples that were sent and sent back. Each is a
 * card, and a card is its list of events; nothing in that list is ever changed or removed.
 *
 * <p>Entry points: {@link slowproof.archive.desk.Question}, {@link slowproof.archive.desk.Sample}.
 */
@NullMarked
package slowproof.archive.desk;

import org.jspecify.annotations.NullMarked;
