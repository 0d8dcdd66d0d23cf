package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.sampling.InputGroup;
import slowproof.metrology.sampling.UniformTransform;

/** Uniform numbers to inputs: quantiles for independent inputs, jointly for correlated ones. */
final class InputTransform implements UniformTransform {

    /** One independent input, or several correlated ones, and where its uniform numbers begin. */
    private record Part(
            String name,
            int position,
            @Nullable InputDistribution alone,
            @Nullable JointInputs joint,
            int from,
            int count) {

        void apply(double[] u, double[] x) {
            if (alone != null) {
                x[position] = alone.quantile(u[from]);
            } else if (joint != null) {
                joint.apply(u, from, x);
            }
        }
    }

    private final List<Part> parts = new ArrayList<>();
    private final int quantities;
    private final int uniforms;

    InputTransform(UncertaintyModel model) {
        model.correlation().requirePossible();
        int from = 0;
        for (List<Integer> group : model.allGroups()) {
            String name = model.groupName(group);
            int first = group.get(0);
            if (group.size() == 1) {
                parts.add(new Part(name, first, model.inputs().get(first).distribution(), null, from, 1));
                from++;
            } else {
                JointInputs joint = new JointInputs(model.inputs(), group, model.correlation());
                parts.add(new Part(name, first, null, joint, from, joint.uniforms()));
                from += joint.uniforms();
            }
        }
        quantities = model.inputs().size();
        uniforms = from;
    }

    @Override
    public int uniforms() {
        return uniforms;
    }

    @Override
    public int quantities() {
        return quantities;
    }

    @Override
    public void apply(double[] u, double[] x) {
        for (Part part : parts) {
            part.apply(u, x);
        }
    }

    List<InputGroup> groups() {
        return parts.stream()
                .map(part -> new InputGroup(
                        part.name(),
                        IntStream.range(part.from(), part.from() + part.count())
                                .boxed()
                                .toList()))
                .toList();
    }
}
