/**
 * The written answer: a document as PDF/A-3 or as one HTML file, with its data inside. It lays out and packs; what is
 * said is handed in, and so is every byte of data. It reads no clock and no file.
 */
@NullMarked
package slowproof.report.answer;

import org.jspecify.annotations.NullMarked;
