package slowproof.trial.curve;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.NormalizedGaussianSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;

/**
 * Hamiltonian Monte Carlo from one mode, in the parameters q of the model. The mass matrix M is the Gauss-Newton
 * Hessian at the mode, so that the posterior looks nearly round. Several chains, each with its own warm-up;
 * the step is tuned in the first. No allocation within a move.
 */
final class ShapeSampler {
    private static final double TRAJECTORY = 1.4;
    private static final int FEWEST_LEAPS = 6;
    private static final int MOST_LEAPS = 32;
    private static final int TUNING = 100;
    private static final int WARM_UP = 40;
    private static final int KEPT_PER_CHAIN = 200;
    private static final double WANTED_ACCEPTANCE = 0.75;
    private static final double LARGEST_STEP = 0.35;
    private static final double START_WIDTH = 0.5;

    private final ShapeModel model;
    private final UniformRandomProvider random;
    private final NormalizedGaussianSampler normal;
    private final int n;
    private final double[] momentum;
    private final double[] velocity;
    private final double[] position;
    private final double[] gradient;
    private final double[] current;
    private final double[] currentGradient;
    private final double[] centre;
    private final double modeValue;
    private final double[][] lower;
    private final double[] inverse;
    private double currentValue;
    private double step = 0.22;
    private int leaps = 8;
    private long accepted;
    private long proposed;

    /** What takes the draws. */
    interface Sink {
        /** Told of one draw; the model holds its curve, base and start loss. */
        void draw(ShapeModel model);
    }

    ShapeSampler(ShapeMode mode, UniformRandomProvider random) {
        this.model = mode.model;
        this.random = random;
        this.normal = ZigguratSampler.NormalizedGaussian.of(random);
        n = model.dimension;
        momentum = new double[n];
        velocity = new double[n];
        position = new double[n];
        gradient = new double[n];
        current = new double[n];
        currentGradient = new double[n];
        centre = model.toQ(mode.z);
        modeValue = mode.value;
        CholeskyDecomposition factor =
                new CholeskyDecomposition(new Array2DRowRealMatrix(mode.hessianQ(), false), 1e-9, 1e-300);
        lower = factor.getL().getData();
        inverse = new double[n * n];
        double[][] full = factor.getSolver().getInverse().getData();
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < n; k++) {
                inverse[i * n + k] = 0.5 * (full[i][k] + full[k][i]);
            }
        }
    }

    /** Draws {@code count} curves. */
    void sample(int count, Sink sink) {
        int chains = (count + KEPT_PER_CHAIN - 1) / KEPT_PER_CHAIN;
        int done = 0;
        for (int chain = 0; chain < chains; chain++) {
            start();
            if (chain == 0) {
                tune();
            }
            warmUp();
            int until = (int) ((long) count * (chain + 1) / chains);
            for (; done < until; done++) {
                move();
                model.curveQ(current);
                sink.draw(model);
            }
        }
    }

    /** Returns the share of proposals taken, 0 to 1, over all that was run. */
    double acceptance() {
        return proposed == 0 ? 1 : (double) accepted / proposed;
    }

    /**
     * Puts the chain near the mode, spread as the curvature says but less wide; nearer still where the quadratic is not
     * good, so that no chain begins where the posterior is negligible.
     */
    private void start() {
        drawMomentum();
        inverseMass();
        double width = START_WIDTH;
        do {
            for (int i = 0; i < n; i++) {
                current[i] = centre[i] + width * velocity[i];
            }
            currentValue = model.gradientQ(current, currentGradient);
            width *= 0.5;
        } while (!(currentValue < modeValue + n) && width > 1e-6);
    }

    private void tune() {
        // dual averaging (Hoffman and Gelman, J. Mach. Learn. Res. 15 (2014) 1593, section 3.2, constants from memory)
        double logStart = Math.log(step);
        double shortfall = 0;
        double logMean = 0;
        for (int i = 1; i <= TUNING; i++) {
            double probability = move();
            double share = 1.0 / (i + 10);
            shortfall = (1 - share) * shortfall + share * (WANTED_ACCEPTANCE - probability);
            double logStep = Math.min(Math.log(LARGEST_STEP), logStart - Math.sqrt(i) / 0.1 * shortfall);
            double forget = Math.pow(i, -0.75);
            logMean = forget * logStep + (1 - forget) * logMean;
            setStep(Math.exp(logStep));
        }
        setStep(Math.exp(logMean));
        accepted = 0;
        proposed = 0;
    }

    /** Warms the chain up; one that hardly moves gets shorter steps, for good. */
    private void warmUp() {
        for (int attempt = 0; attempt < 5; attempt++) {
            long before = accepted;
            for (int i = 0; i < WARM_UP; i++) {
                move();
            }
            if (accepted - before >= WARM_UP / 2) {
                return;
            }
            setStep(step / 1.5);
        }
    }

    private void setStep(double size) {
        step = size;
        leaps = (int) Math.max(FEWEST_LEAPS, Math.min(MOST_LEAPS, Math.round(TRAJECTORY / size)));
    }

    /** Makes one proposal and returns its acceptance probability. */
    private double move() {
        drawMomentum();
        double before = currentValue + kinetic();
        double width = step * (0.85 + 0.3 * random.nextDouble());
        System.arraycopy(current, 0, position, 0, n);
        System.arraycopy(currentGradient, 0, gradient, 0, n);
        double value = currentValue;
        for (int leap = 0; leap < leaps; leap++) {
            double half = 0.5 * width;
            for (int i = 0; i < n; i++) {
                momentum[i] -= half * gradient[i];
            }
            inverseMass();
            for (int i = 0; i < n; i++) {
                position[i] += width * velocity[i];
            }
            value = model.gradientQ(position, gradient);
            for (int i = 0; i < n; i++) {
                momentum[i] -= half * gradient[i];
            }
            if (!(value < before + 1000)) {
                break;
            }
        }
        inverseMass();
        double change = before - value - kineticOfVelocity();
        double probability = change >= 0 ? 1 : Double.isNaN(change) ? 0 : Math.exp(change);
        proposed++;
        if (random.nextDouble() < probability) {
            accepted++;
            System.arraycopy(position, 0, current, 0, n);
            System.arraycopy(gradient, 0, currentGradient, 0, n);
            currentValue = value;
        }
        return probability;
    }

    private double kinetic() {
        inverseMass();
        return kineticOfVelocity();
    }

    private double kineticOfVelocity() {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += momentum[i] * velocity[i];
        }
        return 0.5 * sum;
    }

    /**
     * velocity = M^-1 momentum. M^-1 is symmetric, so its rows are its columns; four of them at once, since every sum waits
     * for its own last addition.
     */
    private void inverseMass() {
        double[] by = inverse;
        double[] p = momentum;
        double[] to = velocity;
        int size = n;
        int i = 0;
        for (; i + 3 < size; i += 4) {
            int first = i * size;
            int second = first + size;
            int third = second + size;
            int fourth = third + size;
            double a = 0;
            double b = 0;
            double c = 0;
            double d = 0;
            for (int k = 0; k < size; k++) {
                double pk = p[k];
                a += pk * by[first + k];
                b += pk * by[second + k];
                c += pk * by[third + k];
                d += pk * by[fourth + k];
            }
            to[i] = a;
            to[i + 1] = b;
            to[i + 2] = c;
            to[i + 3] = d;
        }
        for (; i < size; i++) {
            double sum = 0;
            for (int k = 0; k < size; k++) {
                sum += p[k] * by[i * size + k];
            }
            to[i] = sum;
        }
    }

    /** Draws momentum ~ N(0, M): the lower factor of M times standard normals. */
    private void drawMomentum() {
        for (int i = 0; i < n; i++) {
            position[i] = normal.sample();
        }
        for (int i = 0; i < n; i++) {
            double[] row = lower[i];
            double sum = 0;
            for (int k = 0; k <= i; k++) {
                sum += row[k] * position[k];
            }
            momentum[i] = sum;
        }
    }
}
