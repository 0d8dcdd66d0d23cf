package slowproof.app.web;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.Sample;
import slowproof.archive.sheet.Sheet;
import slowproof.wording.Wording;

/**
 * What the page of a sample shows.
 *
 * @param sample the sample
 * @param form what was typed
 * @param seen number of its last event
 * @param token name of the forms, so that sending one twice counts once
 * @param today day, ISO 8601
 * @param trials trials that ran on it, by title
 * @param meanwhile what somebody else recorded while the form was filled in, a sentence each
 * @param history what was recorded, a sentence each, the last first
 */
public record SampleView(
        Sample sample,
        SampleForm form,
        long seen,
        String token,
        String today,
        List<Trial> trials,
        List<String> meanwhile,
        List<String> history) {
    /** Copies the lists. */
    public SampleView {
        trials = List.copyOf(trials);
        meanwhile = List.copyOf(meanwhile);
        history = List.copyOf(history);
    }

    /**
     * A trial that ran on the sample.
     *
     * @param id id of the trial
     * @param title its title, or what stands for one
     */
    public record Trial(String id, String title) {}

    /** Returns true when it was to go back before today and is still here. */
    public boolean overdue() {
        return isOverdue(sample, today);
    }

    static boolean isOverdue(Sample sample, String today) {
        return sample.returned().isEmpty()
                && !sample.field("due").isEmpty()
                && sample.field("due").compareTo(today) < 0;
    }

    static SampleView of(
            Sample sample,
            SampleForm form,
            List<CardEvent> events,
            List<CardEvent> meanwhile,
            Site site,
            Wording wording) {
        List<Trial> trials = new ArrayList<>();
        for (String id : sample.trials()) {
            Sheet sheet = site.archive().sheet(id);
            trials.add(new Trial(id, TrialPage.title(sheet, wording, site.zone())));
        }
        trials.sort(Comparator.comparing(Trial::title));
        Show show = new Show(wording, site.zone());
        Function<CardEvent, String> what = event -> what(event, events, show, wording);
        List<String> history = CardStory.told(events, show, wording, what);
        Collections.reverse(history);
        return new SampleView(
                sample,
                form,
                events.get(events.size() - 1).seq(),
                Visit.random(),
                site.today(),
                trials,
                CardStory.told(meanwhile, show, wording, what),
                history);
    }

    private static String what(CardEvent event, List<CardEvent> all, Show show, Wording wording) {
        return switch (event.kind()) {
            case Sample.NOTED -> noted(event, all, wording);
            case Sample.RETURNED -> wording.text("samples.event.returned", show.day(event.text("day")));
            case Sample.LINKED -> wording.text("samples.event.linked", event.text("trial"));
            case Sample.UNLINKED -> wording.text("samples.event.unlinked", event.text("trial"));
            default -> wording.text("samples.event." + event.kind());
        };
    }

    private static String noted(CardEvent event, List<CardEvent> all, Wording wording) {
        return CardStory.typed(
                event, all, Sample.FIELDS, wording, "samples.event", name -> wording.text("samples." + name));
    }
}
