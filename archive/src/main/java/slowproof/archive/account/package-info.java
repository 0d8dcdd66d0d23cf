/**
 * Who may use an archive that can be reached from other machines. Entry point:
 * {@link slowproof.archive.account.Accounts}.
 */
@NullMarked
package slowproof.archive.account;

import org.jspecify.annotations.NullMarked;
