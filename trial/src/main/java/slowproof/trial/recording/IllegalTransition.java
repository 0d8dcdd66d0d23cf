package slowproof.trial.recording;

/**
 * Both channels changed between two rows: two edges passed, direction unknown, nothing counted.
 *
 * @param row row after the transition, counted from 0
 * @param timeS time of that row in s
 */
public record IllegalTransition(int row, double timeS) {}
