/**
 * Keeps what was made of large raw files, so that they need not be read again. Entry point:
 * {@link slowproof.files.cache.CacheFolder}. Everything kept can be made anew: whatever is missing, cut or
 * spoiled is treated as not there.
 */
@NullMarked
package slowproof.files.cache;

import org.jspecify.annotations.NullMarked;
