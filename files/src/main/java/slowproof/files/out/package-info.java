/**
 * Findings as files: JSON, CSV and spreadsheet. Numbers keep all their digits, names of keys and columns carry the
 * unit, percent is written as percent. Entry points: {@link slowproof.files.out.FindingsJson},
 * {@link slowproof.files.out.ConditionsCsv}, {@link slowproof.files.out.FindingsXlsx}.
 */
@NullMarked
package slowproof.files.out;

import org.jspecify.annotations.NullMarked;
