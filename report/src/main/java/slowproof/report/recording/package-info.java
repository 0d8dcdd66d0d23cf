/** The picture of a recording: speeds over time, passes, dropouts and what is doubtful. */
@NullMarked
package slowproof.report.recording;

import org.jspecify.annotations.NullMarked;
