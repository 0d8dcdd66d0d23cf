package slowproof.app.web;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.Trial;
import slowproof.trial.findings.Pass;
import slowproof.trial.slips.Slips;
import slowproof.wording.Wording;

/**
 * What the blanks of the first page say.
 *
 * @param unfinished blanks that are not understood yet
 * @param questions likely slips of typing
 * @param said the evaluated move, or null while a number is missing
 * @param ruler drawing of the last pass, or null
 */
public record StartAnswer(
        List<Problem> unfinished,
        List<String> questions,
        @Nullable Evaluated said,
        @Nullable Ruler ruler) {
    /** Copies the lists. */
    public StartAnswer {
        unfinished = List.copyOf(unfinished);
        questions = List.copyOf(questions);
    }

    static StartAnswer of(StartForm form, Wording wording, ZoneId zone) {
        List<Problem> unfinished = form.problemsSoFar(wording);
        if (!form.hasMove() || !unfinished.isEmpty()) {
            return new StartAnswer(unfinished, List.of(), null, null);
        }
        Evaluated said =
                Evaluated.of(sheet(form.events()), KeptRecordings.Read.NOTHING, wording.text("surface.unnamed"), zone);
        Trial trial = said.meaning().trial();
        if (trial == null || !said.hasFindings()) {
            return new StartAnswer(unfinished, List.of(), null, null);
        }
        List<Pass> passes = said.passes();
        List<String> questions = Slips.questions(trial).stream()
                .map(question -> Questions.sentence(question, wording))
                .toList();
        Ruler ruler = Ruler.of(passes.get(0), new Show(wording, zone));
        return new StartAnswer(List.of(), questions, said, ruler);
    }

    private static Sheet sheet(List<NewEvent> events) {
        List<Event> all = new ArrayList<>();
        // the time of day plays no part in an answer that nobody kept
        all.add(new Event(1, Instant.EPOCH, EventKind.STARTED, Map.of()));
        events.forEach(event -> all.add(new Event(all.size() + 1L, Instant.EPOCH, event.kind(), event.fields())));
        return Sheet.of("", all);
    }
}
