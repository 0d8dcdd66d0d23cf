/**
 * Words and numbers for readers: message bundles (English, German), the one number formatter, the units a reader
 * prefers, and the answer to paste into a mail. Knows the results, reads and writes no files but its bundles.
 * Entry point: {@link slowproof.wording.Wording}.
 */
@NullMarked
package slowproof.wording;

import org.jspecify.annotations.NullMarked;
