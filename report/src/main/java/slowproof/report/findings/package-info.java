/** Findings as charts. Every chart names what it shows and says the finding in words as well. */
@NullMarked
package slowproof.report.findings;

import org.jspecify.annotations.NullMarked;
