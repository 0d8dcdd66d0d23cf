package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Check;
import slowproof.metrology.sampling.InputGroup;
import slowproof.metrology.sampling.ModelFunction;
import slowproof.metrology.sampling.UniformTransform;
import slowproof.metrology.sampling.VectorSource;

/**
 * A quantity as a function of named input quantities, some of which may be correlated: the measurement model of
 * JCGM 100 and JCGM 101. {@link Budget} and {@link MonteCarlo} evaluate it. Immutable.
 */
public final class UncertaintyModel {

    private final List<Input> inputs;
    private final ModelFunction function;
    private final List<Correlation> correlations;
    private final CorrelationMatrix matrix;
    private final double @Nullable [] sensitivities;

    private UncertaintyModel(
            List<Input> inputs,
            ModelFunction function,
            List<Correlation> correlations,
            double @Nullable [] sensitivities) {
        this.inputs = inputs;
        this.function = function;
        this.correlations = correlations;
        this.matrix = CorrelationMatrix.of(inputs.stream().map(Input::name).toList(), correlations);
        this.sensitivities = sensitivities;
    }

    /**
     * Returns a model with independent inputs.
     *
     * @param inputs at least one, with different names, in the order of the arguments of the function
     * @param function the quantity as a function of the inputs
     * @return the model
     * @throws IllegalArgumentException if there is no input or a name appears twice
     */
    public static UncertaintyModel of(List<Input> inputs, ModelFunction function) {
        if (inputs.isEmpty()) {
            throw new IllegalArgumentException("a model needs at least one input quantity");
        }
        List<String> names = inputs.stream().map(Input::name).toList();
        if (names.stream().distinct().count() < names.size()) {
            throw new IllegalArgumentException("input quantities need different names: " + names);
        }
        return new UncertaintyModel(List.copyOf(inputs), function, List.of(), null);
    }

    /**
     * Returns a model with one more correlation; a later one for the same pair replaces an earlier one.
     *
     * @param first name of an input
     * @param second name of another
     * @param coefficient dimensionless, -1 to 1
     * @return the model
     * @throws IllegalArgumentException if an input is unknown or the coefficient out of range. Coefficients that
     *     contradict each other are found when the model is evaluated, as they arrive one by one
     */
    public UncertaintyModel withCorrelation(String first, String second, double coefficient) {
        List<Correlation> more = Stream.concat(
                        correlations.stream(), Stream.of(new Correlation(first, second, coefficient)))
                .toList();
        return new UncertaintyModel(inputs, function, more, sensitivities);
    }

    /**
     * Returns a model with given sensitivity coefficients, which are otherwise found by numeric differentiation.
     *
     * @param coefficients partial derivatives at the estimates, one for each input, finite
     * @return the model
     * @throws IllegalArgumentException if their number is not that of the inputs or one is not finite
     */
    public UncertaintyModel withSensitivities(double... coefficients) {
        if (coefficients.length != inputs.size()) {
            throw new IllegalArgumentException(
                    inputs.size() + " inputs need as many sensitivity coefficients: " + coefficients.length);
        }
        Check.allFinite(coefficients, "sensitivity coefficients");
        return new UncertaintyModel(inputs, function, correlations, coefficients.clone());
    }

    /**
     * Returns the inputs.
     *
     * @return in the order of the arguments of the function
     */
    public List<Input> inputs() {
        return inputs;
    }

    /**
     * Returns the function.
     *
     * @return the quantity as a function of the inputs
     */
    public ModelFunction function() {
        return function;
    }

    /**
     * Returns the given sensitivity coefficients.
     *
     * @return a copy, or nothing when they are to be found numerically
     */
    public Optional<double[]> givenSensitivities() {
        return Optional.ofNullable(sensitivities).map(double[]::clone);
    }

    /**
     * Returns the function with all inputs at their best estimates.
     *
     * @return in the unit of the quantity
     * @throws ArithmeticException if it is not finite there
     */
    public double estimate() {
        double value = function.value(estimates());
        if (!Double.isFinite(value)) {
            throw new ArithmeticException("the model gives " + value + " at the estimates of its inputs");
        }
        return value;
    }

    double[] estimates() {
        return inputs.stream()
                .mapToDouble(input -> input.distribution().estimate())
                .toArray();
    }

    CorrelationMatrix correlation() {
        return matrix;
    }

    /**
     * Starts a stream of random draws of all inputs. Drawing makes no objects.
     *
     * @param random where the randomness comes from
     * @return a source of its own, in the order of the inputs
     * @throws IllegalArgumentException if correlated inputs are neither all normal nor all Student's with the same
     *     degrees of freedom
     */
    public VectorSource source(UniformRandomProvider random) {
        List<VectorSource> parts = new ArrayList<>();
        for (List<Integer> group : allGroups()) {
            if (group.size() == 1) {
                int i = group.get(0);
                var sampler = inputs.get(i).distribution().sampler(random);
                parts.add(x -> x[i] = sampler.sample());
            } else {
                parts.add(new JointInputs(inputs, group, matrix).start(random));
            }
        }
        VectorSource[] sources = parts.toArray(VectorSource[]::new);
        return x -> {
            for (VectorSource source : sources) {
                source.next(x);
            }
        };
    }

    /**
     * Returns the transformation of uniform numbers into draws of the inputs.
     *
     * @return the transformation
     * @throws IllegalArgumentException if correlated inputs are neither all normal nor all Student's with the same
     *     degrees of freedom, or the coefficients contradict each other
     */
    public UniformTransform transform() {
        return new InputTransform(this);
    }

    /**
     * Returns the groups of inputs that share a sensitivity index: each independent input alone, correlated ones
     * together, named after their members.
     *
     * @return the groups, in the order of their first members, numbered as in {@link #transform()}
     * @throws IllegalArgumentException as {@link #transform()}
     */
    public List<InputGroup> groups() {
        return new InputTransform(this).groups();
    }

    List<List<Integer>> allGroups() {
        return matrix.groups(i -> true);
    }

    String groupName(List<Integer> group) {
        return String.join(" + ", group.stream().map(i -> inputs.get(i).name()).toList());
    }
}
