package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.FoundPass;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.PassFlag;
import slowproof.trial.recording.PassSearch;
import slowproof.trial.recording.SensorScale;

/**
 * A log recorded by others: a small optical motion sensor looks at a sphere turned by hand, and a stage follows.
 * Source: public repository ranczlab/RPM (GPL-3.0), its validation data of an optical sensor. The file is read in
 * place and not part of this project; without it the test is skipped.
 */
class SphereLogTest {
    @Test
    void longPassBetweenTheStandstillsIsReadAndItsErrorComputed() {
        Path root = Path.of(System.getProperty("slowproof.root", "."));
        Path log = root.resolve("../shared/real/optical-sensor-on-sphere.txt").normalize();
        assumeTrue(Files.exists(log), "the log recorded by others is not here: " + log);
        LogRequest request = LogRequest.of("optical-sensor-on-sphere.txt", SensorScale.ofCounts(0.0470636))
                .with(new ColumnMapping(Map.of(
                        ColumnRole.TIME, ColumnSource.number(5).in("ms"),
                        ColumnRole.COUNT, ColumnSource.number(2),
                        ColumnRole.REFERENCE, ColumnSource.number(4).in("deg").onRoll(360),
                        ColumnRole.LEVEL, ColumnSource.number(1).below(30))));
        LogResult result = LogReader.read(log, request);
        assertThat(result.readAs().summary())
                .isEqualTo(
                        "time: 5 [ms], count: 2, reference: 4 [deg], level: 1; separator \";\", decimal \".\", UTF-8");
        // rows as counted by wc -l
        assertThat(result.readAs().rows()).isEqualTo(32_432);

        PassSearch search = PassFinder.find(result.recording());
        FoundPass longest = search.passes().stream()
                .max((one, other) -> Double.compare(one.pathMm(), other.pathMm()))
                .orElseThrow();
        assertThat(longest).isSameAs(search.passes().get(0));
        assertThat(longest.startS()).isCloseTo(15.8, within(0.1));
        assertThat(longest.endS()).isCloseTo(202.6, within(0.2));
        // -14954 mm by 41.5 turns; 318 000 counts of 0.0470636 mm
        assertThat(longest.referenceMm()).isCloseTo(-14954.5, within(1.0));
        assertThat(longest.errorMm()).isCloseTo(12.3, within(0.1));
        assertThat(longest.relativeError()).isCloseTo(0.00082, within(0.00001));
        // eight of the eleven gaps of 70 to 358 ms lie in the long pass; it is kept whole and flagged, nothing is
        // filled in
        assertThat(longest.flags()).contains(PassFlag.GAP_IN_PASS);
        assertThat(result.recording().breaks()).hasSize(11).noneMatch(Break::splits);
        assertThat(longest.dropoutShare()).isBetween(0.001, 0.2);

        // the hand that stops the sphere moves it a little more: shorter moves of about a millimetre follow
        assertThat(search.passes().subList(1, search.passes().size()))
                .hasSizeBetween(3, 5)
                .allSatisfy(pass -> assertThat(Math.abs(pass.referenceMm())).isLessThan(1.5))
                .allSatisfy(pass -> assertThat(pass.errorMm()).isCloseTo(0, within(0.1)));
    }
}
