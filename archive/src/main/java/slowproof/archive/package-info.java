/**
 * Keeps every trial: what was typed, as typed, in the order it was typed, and the files that go with it. A trial
 * is its list of events; nothing in that list is ever changed or removed, an undo is a further event.
 *
 * <p>Entry point: {@link slowproof.archive.Archive}. What the events mean is told by
 * {@link slowproof.archive.sheet.Sheet}.
 */
@NullMarked
package slowproof.archive;

import org.jspecify.annotations.NullMarked;
