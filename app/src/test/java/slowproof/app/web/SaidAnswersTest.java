package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.Result;

/** What the page of a trial said is kept with the program that said it, once a state of the trial. */
class SaidAnswersTest {
    @TempDir
    Path folder;

    private List<Result> results(String trial) {
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            return archive.results(trial.substring("/trials/".length()));
        }
    }

    @Test
    void findingsThatWereShownCanBeReadAgain() {
        String trial;
        try (Server server = Server.start(folder, 0)) {
            Visitor visitor = new Visitor(server.url());
            trial = visitor.newTrial();
            visitor.get(trial);
            visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "surface", "acoustic felt");
            for (String reading : List.of("0.0", "600.6", "0.3")) {
                visitor.post(trial + "/readings", "reading", reading);
            }
            visitor.get(trial);
            visitor.get(trial);
        }
        assertThat(results(trial)).extracting(Result::seq, Result::kind).containsExactly(tuple(5L, "findings"));
        try (Server server = Server.start(folder, 0)) {
            Visitor visitor = new Visitor(server.url());
            assertThat(visitor.get(trial).body()).contains("What this page said before");
            String address = trial + "/said/" + results(trial).get(0).sha256();
            assertThat(visitor.get(address).body()).contains("findings/1").contains("\"passes\"");
            String other = visitor.newTrial();
            assertThat(visitor.get(address.replace(trial, other)).statusCode()).isEqualTo(404);
        }
        assertThat(results(trial)).hasSize(1);
    }
}
