package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThatCode;

import org.junit.jupiter.api.Test;
import slowproof.trial.findings.Flag;

class PassFlagTest {
    @Test
    void everyFlagOfAFoundPassIsAFlagOfTheFindings() {
        for (PassFlag flag : PassFlag.values()) {
            assertThatCode(() -> Flag.valueOf(flag.name())).doesNotThrowAnyException();
        }
    }
}
