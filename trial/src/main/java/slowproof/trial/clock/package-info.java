/**
 * Two clocks: how the times of a sensor's log and of a reference's log go together. Convention: t_ref = t_sensor (1 +
 * drift) + offset; a positive drift means that the sensor's clock is slow. What is found is clock offset plus the
 * sensor's latency; two clocks cannot tell the two apart. Units: s, mm, mm/s, ratios.
 */
@NullMarked
package slowproof.trial.clock;

import org.jspecify.annotations.NullMarked;
