/** The command line: wires everything, decides nothing. */
@NullMarked
package slowproof.app;

import org.jspecify.annotations.NullMarked;
