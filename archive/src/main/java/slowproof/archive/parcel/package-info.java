/**
 * A whole trial as one ZIP file: its events, its raw files, what was made of them, and a manifest with the SHA-256 of
 * every entry. Entry points: {@link slowproof.archive.parcel.ParcelWriter} and
 * {@link slowproof.archive.parcel.ParcelReader}. Form: docs/archive.md.
 */
@NullMarked
package slowproof.archive.parcel;

import org.jspecify.annotations.NullMarked;
