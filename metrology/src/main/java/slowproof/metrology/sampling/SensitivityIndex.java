package slowproof.metrology.sampling;

import slowproof.metrology.Interval;

/**
 * Share of one input group in the variance of a model. All numbers are dimensionless ratios; the true values lie
 * from 0 to 1, the estimates may lie a little outside.
 *
 * @param group name of the group
 * @param first variance that goes away when the group alone becomes known
 * @param firstInterval confidence interval of {@code first}
 * @param total variance that stays when everything but the group becomes known; at least 0, and above {@code
 *     first} when the group acts together with others
 * @param totalInterval confidence interval of {@code total}
 */
public record SensitivityIndex(
        String group, double first, Interval firstInterval, double total, Interval totalInterval) {}
