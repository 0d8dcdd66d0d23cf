package slowproof.trial.findings;

import org.jspecify.annotations.Nullable;

/**
 * A forward pass and the return pass that follows it.
 *
 * @param forward the forward pass
 * @param back the return pass
 * @param closureMm indication after the cycle minus indication before it, less what the reference did not come
 *     back, in mm; equals the forward error minus the return error. Null when the counter was zeroed in between
 */
public record Cycle(Pass forward, Pass back, @Nullable Double closureMm) {}
