package slowproof.metrology;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;

class IntervalTest {

    @Test
    void endsBelongToTheInterval() {
        Interval interval = new Interval(-1, 3);
        assertThat(interval.contains(-1)).isTrue();
        assertThat(interval.contains(3)).isTrue();
        assertThat(interval.contains(Math.nextUp(3.0))).isFalse();
        assertThat(interval.contains(Math.nextDown(-1.0))).isFalse();
        assertThat(interval.contains(Double.NaN)).isFalse();
        assertThat(interval.width()).isEqualTo(4);
        assertThat(interval.centre()).isEqualTo(1);
    }

    @Test
    void onePointAndOpenEndsAreIntervals() {
        assertThat(new Interval(2, 2).width()).isZero();
        assertThat(new Interval(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY).width())
                .isZero();
        assertThat(new Interval(5, Double.POSITIVE_INFINITY).width()).isInfinite();
    }

    @Test
    void reversedOrUndefinedEndsAreRefused() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Interval(2, 1))
                .withMessageContaining("[2.0, 1.0]");
        assertThatIllegalArgumentException().isThrownBy(() -> new Interval(Double.NaN, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Interval(1, Double.NaN));
    }
}
