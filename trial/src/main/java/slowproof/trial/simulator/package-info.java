/**
 * A bench, its surfaces and a line, simulated with a known truth. Motion is integrated in time and the
 * sensor's travel is counted in edges; nothing here knows how results are evaluated, so that the evaluation
 * can be judged against it. Units are mm, s, mm/s and ratios; seeds are arguments. Entry points:
 * {@link slowproof.trial.simulator.Bench}, {@link slowproof.trial.simulator.Population},
 * {@link slowproof.trial.simulator.DemoPlant} and {@link slowproof.trial.simulator.LineCycle}.
 */
@NullMarked
package slowproof.trial.simulator;

import org.jspecify.annotations.NullMarked;
