/**
 * Results as text for a terminal: wrapped sentences, aligned tables, colour only beside words. Entry point:
 * {@link slowproof.app.text.FindingsText}.
 */
@NullMarked
package slowproof.app.text;

import org.jspecify.annotations.NullMarked;
