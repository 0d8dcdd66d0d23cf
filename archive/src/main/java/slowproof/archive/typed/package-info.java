/** Understands numbers as people type them: decimal mark, unit, range of a flickering display. Nothing is guessed in silence. */
@NullMarked
package slowproof.archive.typed;

import org.jspecify.annotations.NullMarked;
