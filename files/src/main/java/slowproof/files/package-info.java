/** Trial files in and out: YAML, CSV, XLSX, JSON. Units other than mm, s, mm/s and ratios exist only here. */
@NullMarked
package slowproof.files;

import org.jspecify.annotations.NullMarked;
