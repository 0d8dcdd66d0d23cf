package slowproof.trial.recording;

import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;

/**
 * How well the sensor shows speed on the plateau of a pass.
 *
 * @param referenceMmPerS mean speed of the reference, in mm/s, signed
 * @param indicatedMmPerS mean indicated speed, in mm/s, signed
 * @param standardUncertaintyMmPerS standard uncertainty of the difference of the means from counting and the noise and steps of the reference, in mm/s
 * @param rippleMmPerS standard deviation of the indicated speed over the averaging time, the reference's taken out, in mm/s; NaN with fewer than three averages
 * @param countingShare share of the ripple's variance that counting alone explains, a ratio from 0 to 1; NaN with fewer than three averages
 * @param averagingS averaging time in s, longer than asked where rows are further apart
 * @param averages number of averages
 */
public record PlateauSpeed(
        double referenceMmPerS,
        double indicatedMmPerS,
        double standardUncertaintyMmPerS,
        double rippleMmPerS,
        double countingShare,
        double averagingS,
        int averages) {
    /** Returns the error of indication of speed as a ratio, positive when the sensor shows too fast, in either direction. */
    public double relativeError() {
        return (indicatedMmPerS - referenceMmPerS) / referenceMmPerS;
    }

    /** Returns the same as ratios of the reference's speed. */
    public IndicatedSpeed relative() {
        double speed = Math.abs(referenceMmPerS);
        return new IndicatedSpeed(
                relativeError(),
                standardUncertaintyMmPerS / speed,
                Double.isNaN(rippleMmPerS) ? null : new Ripple(rippleMmPerS / speed, countingShare, averagingS));
    }
}
