package slowproof.metrology.sampling;

import java.util.ArrayList;
import java.util.List;

/**
 * First-order and total sensitivity indices of a model with independent input groups (Sobol 1993; estimators of
 * Saltelli et al. 2010 for the first order and of Jansen 1999 for the total).
 *
 * <p>Each block draws two sets of points A and B and, for each group, the set A with the group's numbers taken
 * from B. The indices are ratios of sums over all blocks; their intervals come from leaving out one block at a
 * time (jackknife) and Student's t.
 *
 * @param indices one for each group, in the order of the groups
 * @param variance of the model, in its squared unit, at least 0; with 0 all indices are 0
 * @param evaluations how often the model was evaluated
 */
public record SobolIndices(List<SensitivityIndex> indices, double variance, long evaluations) {

    /** Copies the list. */
    public SobolIndices {
        indices = List.copyOf(indices);
    }

    /**
     * Estimates the indices.
     *
     * @param model the model; called from several threads when the plan has them
     * @param transform makes draws of the inputs from uniform numbers
     * @param groups the groups; a number in no group takes part in the variance without an index of its own
     * @param plan how much work to do
     * @return the indices
     * @throws IllegalArgumentException if a group names a number that the transform does not have
     * @throws ArithmeticException if the model gives a value that is not finite
     */
    public static SobolIndices estimate(
            ModelFunction model, UniformTransform transform, List<InputGroup> groups, SensitivityPlan plan) {
        for (InputGroup group : groups) {
            for (int uniform : group.uniforms()) {
                if (uniform < 0 || uniform >= transform.uniforms()) {
                    throw new IllegalArgumentException("group " + group.name() + " names number " + uniform
                            + ", there are " + transform.uniforms());
                }
            }
        }
        SobolBlocks worker = new SobolBlocks(model, transform, groups, plan);
        List<SobolSums> blocks =
                ParallelBlocks.map(BlockStreams.of(plan.seed()), plan.blocks(), plan.threads(), worker::block);
        List<SensitivityIndex> indices = new ArrayList<>();
        for (int g = 0; g < groups.size(); g++) {
            int group = g;
            RatioEstimate first = RatioEstimate.of(blocks, sums -> sums.first(group), plan.confidence());
            RatioEstimate total = RatioEstimate.of(blocks, sums -> sums.total(group), plan.confidence());
            indices.add(new SensitivityIndex(
                    groups.get(g).name(), first.value(), first.interval(), total.value(), total.interval()));
        }
        double variance = blocks.stream().mapToDouble(SobolSums::variance).sum() / plan.blocks();
        long evaluations = (long) plan.blocks() * plan.pointsPerBlock() * (groups.size() + 2);
        return new SobolIndices(indices, variance, evaluations);
    }
}
