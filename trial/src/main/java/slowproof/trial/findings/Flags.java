package slowproof.trial.findings;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/** Immutable sets of flags in the order of the list. */
final class Flags {
    private Flags() {}

    static Set<Flag> copyOf(Collection<Flag> flags) {
        if (flags.isEmpty()) {
            return Set.of();
        }
        return Collections.unmodifiableSet(EnumSet.copyOf(flags));
    }

    static Set<Flag> with(Set<Flag> flags, Flag added) {
        EnumSet<Flag> all = EnumSet.of(added);
        all.addAll(flags);
        return Collections.unmodifiableSet(all);
    }
}
