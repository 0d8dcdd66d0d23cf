package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TimeStampsTest {
    private static double[] seconds(String... stamps) {
        TimeStamps reader = new TimeStamps();
        return Arrays.stream(stamps)
                .mapToDouble(stamp -> reader.seconds(stamp.toCharArray(), 0, stamp.length()))
                .toArray();
    }

    @Test
    void stampsRunOnWhereSummerTimeEndsAndBegins() {
        assertThat(seconds("2026-10-25T02:59:59.5+02:00", "2026-10-25T02:00:00.5+01:00"))
                .containsExactly(10_799.5, 10_800.5);
        assertThat(seconds("2026-03-29T01:59:59+01:00", "2026-03-29T03:00:01+02:00"))
                .containsExactly(7199, 7201);
        assertThat(seconds("02:59:59+0200", "02:00:00 +0100", "23:59:59+01", "00:00:00+01"))
                .containsExactly(10_799, 10_800, 90_000 - 1, 90_000);
    }

    @Test
    void theSameInstantInAnyZoneIsTheSameTime() {
        assertThat(seconds(
                        "2026-03-01T06:00:00Z",
                        "2026-03-01T11:30:00+05:30",
                        "2026-02-28T22:00:00-08:00",
                        "2026-03-01T07:00:00+01:00[Europe/Berlin]"))
                .containsOnly(21_600);
    }

    @Test
    void aStampWithoutZoneIsInThatOfTheStampBefore() {
        assertThat(seconds("2026-03-01T06:00:00Z", "2026-03-01T06:00:01", "2026-03-01T06:00:02Z"))
                .containsExactly(21_600, 21_601, 21_602);
        assertThat(seconds("2026-10-25T02:59:59+02:00", "2026-10-25T02:00:00+01:00", "2026-10-25T02:00:01"))
                .containsExactly(10_799, 10_800, 10_801);
        assertThat(seconds("2026-10-25T02:59:59", "2026-10-25T03:00:00+02:00")).containsExactly(10_799, 10_800);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "06:00:00+",
                "06:00:00+x",
                "06:00:00+19:00",
                "06:00:00+01:60",
                "06:00:00+01:",
                "06:00:00Z1",
                "06:00:00+:30",
                "06:00:00+01:00:00:00",
                "06:00:00 MEZ"
            })
    void whatIsNoZoneIsNoStamp(String stamp) {
        assertThat(seconds(stamp)).containsExactly(Double.NaN);
    }
}
