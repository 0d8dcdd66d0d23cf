package slowproof.app.text;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingCut;
import slowproof.files.in.RecordingRead;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.StandstillDrift;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** How each recording was read, aligned and cut into passes, and why; with what is doubtful about it. */
public final class RecordingsText {
    private static final int BREAKS_LISTED = 5;
    private static final int PASSES_LISTED = 6;

    /** Reasons why there is no relation of two clocks that are none of doubt. */
    private static final Set<String> ONE_LOG = Set.of("one_clock", "typed_reference");

    private final LoadedTrial loaded;
    private final Map<String, String> pictures;
    private final Wording wording;
    private final Page page;

    private RecordingsText(LoadedTrial loaded, Map<String, String> pictures, Wording wording, Page page) {
        this.loaded = loaded;
        this.pictures = pictures;
        this.wording = wording;
        this.page = page;
    }

    /**
     * Returns the page; empty for a trial without recordings.
     *
     * @param loaded a trial as read
     * @param pictures name of the file with the picture, by name of the recording; none where it was not drawn
     * @param wording language and units
     * @param colour true for colours of a terminal
     * @param width columns
     */
    public static String render(
            LoadedTrial loaded, Map<String, String> pictures, Wording wording, boolean colour, int width) {
        Page page = new TextPage(wording, colour, width);
        write(loaded, pictures, wording, page);
        return page.toString();
    }

    /**
     * Returns what is said of one recording, sentence by sentence, without its title.
     *
     * @param loaded the trial it belongs to
     * @param recording the recording
     * @param wording language and units
     */
    public static List<String> sentences(LoadedTrial loaded, RecordingRead recording, Wording wording) {
        Sentences page = new Sentences();
        new RecordingsText(loaded, Map.of(), wording, page).recording(recording);
        return page.all();
    }

    /** Writes the part on recordings; nothing for a trial without them. */
    static void write(LoadedTrial loaded, Wording wording, Page page) {
        write(loaded, Map.of(), wording, page);
    }

    private static void write(LoadedTrial loaded, Map<String, String> pictures, Wording wording, Page page) {
        if (!loaded.recordings().isEmpty()) {
            page.heading(wording.text("section.recordings"));
            RecordingsText text = new RecordingsText(loaded, pictures, wording, page);
            loaded.recordings().forEach(text::recording);
        }
    }

    private void recording(RecordingRead recording) {
        RecordingCut cut = recording.cut();
        page.term(
                wording.text("recording.title", Wording.shown(recording.file()), Wording.shown(recording.material())));
        page.paragraph(wording.text("recording.read_as", Wording.shown(recording.readAs())));
        page.paragraph(
                wording.text("recording.rows", cut.rows(), seconds(cut.intervalS()), seconds(cut.toS() - cut.fromS())));
        page.paragraph(clock(recording));
        page.paragraph(wording.text("recording.cut", cut.standstills(), seconds(cut.dwellS()), cut.passes())
                + " "
                + (cut.thresholdStated()
                        ? wording.text(
                                "recording.threshold_stated",
                                Quantity.mmPerS(cut.stillBelowMmPerS()),
                                Quantity.mmPerS(cut.movingAboveMmPerS()))
                        : wording.text(
                                "typed reference".equals(recording.reason())
                                        ? "recording.threshold_derived_sensor"
                                        : "recording.threshold_derived",
                                Quantity.mmPerS(cut.stillBelowMmPerS()),
                                Quantity.mmPerS(cut.movingAboveMmPerS()),
                                Quantity.mm(cut.restNoiseMm()))));
        if (cut.breaks().isEmpty()) {
            page.paragraph(wording.text("recording.whole"));
        } else {
            breaks(cut);
        }
        StandstillDrift drift = cut.drift();
        if (drift != null) {
            page.paragraph(drift(drift));
        }
        doubts(cut.name());
        String picture = pictures.get(cut.name());
        if (picture != null) {
            page.paragraph(wording.text("recording.picture", picture));
        }
        for (Note note : loaded.notes()) {
            boolean told = note.code() == NoteCode.LOG_READ_AS
                    || note.code() == NoteCode.LOG_CLOCKS
                    || note.code() == NoteCode.LOG_CLOCKS_ROUGH;
            if (told) {
                continue;
            }
            if (note.where().equals(recording.file())) {
                page.bullet("*", Page.Tone.PLAIN, wording.note(note));
            } else if (note.where().equals(recording.referenceFile())) {
                page.bullet("*", Page.Tone.PLAIN, wording.text("marks.row", note.where(), wording.note(note)));
            }
        }
    }

    private String clock(RecordingRead recording) {
        RecordingRead.Clock clock = recording.clock();
        String reason = recording.reason();
        if (clock == null) {
            String key = reason == null ? "" : reason.replace(' ', '_');
            return ONE_LOG.contains(key) ? wording.text("recording." + key) : wording.text("recording.rough", key);
        }
        Double drift = clock.driftPpm();
        return wording.text(
                "recording.two_clocks",
                new Quantity(1000 * clock.offsetMidS(), Unit.MS),
                new Quantity(1000 * clock.offsetMidStandardUncertaintyS(), Unit.MS),
                drift == null ? "" : new Quantity(drift, Unit.PPM),
                drift == null
                        ? ""
                        : new Quantity(Objects.requireNonNull(clock.driftStandardUncertaintyPpm()), Unit.PPM));
    }

    private String drift(StandstillDrift drift) {
        Numbers numbers = wording.numbers();
        int decimals = Numbers.decimalsFor(drift.standardUncertaintyMmPerMin());
        return wording.text(
                drift.significant() ? "recording.drift" : "recording.no_drift",
                numbers.signed(drift.mmPerMin(), decimals),
                numbers.fixed(drift.standardUncertaintyMmPerMin(), decimals),
                drift.standstills());
    }

    private void breaks(RecordingCut cut) {
        page.paragraph(wording.text("recording.parts", cut.parts()));
        for (Break place :
                cut.breaks().subList(0, Math.min(BREAKS_LISTED, cut.breaks().size()))) {
            String key = place.cause().key();
            if (place.missing()) {
                key += place.splits() ? "_cut" : "_kept";
            }
            page.bullet(
                    "*",
                    Page.Tone.PLAIN,
                    wording.text(
                            "recording.break." + key, Quantity.moment(place.fromS()), Quantity.moment(place.toS())));
        }
        if (cut.breaks().size() > BREAKS_LISTED) {
            page.bullet(
                    "*", Page.Tone.PLAIN, wording.text("list.more", cut.breaks().size() - BREAKS_LISTED));
        }
    }

    private void doubts(String name) {
        Map<Flag, List<String>> passes = new LinkedHashMap<>();
        int number = 0;
        for (RecordedPass pass : loaded.trial().recorded()) {
            if (pass.recording().equals(name)) {
                number++;
                String id = Wording.shown(name + "/" + number) + " (" + wording.quantity(Quantity.moment(pass.startS()))
                        + ")";
                for (Flag flag : pass.flags()) {
                    passes.computeIfAbsent(flag, f -> new ArrayList<>()).add(id);
                }
            }
        }
        passes.forEach((flag, ids) -> {
            String listed = String.join(", ", ids.subList(0, Math.min(PASSES_LISTED, ids.size())));
            String more = ids.size() > PASSES_LISTED ? " " + wording.text("list.more", ids.size() - PASSES_LISTED) : "";
            page.bullet(
                    "!",
                    Page.Tone.OPEN,
                    wording.text("recording.doubt." + flag.name().toLowerCase(Locale.ROOT), listed + more));
        });
    }

    private static Quantity seconds(double value) {
        return new Quantity(value, Unit.S);
    }
}
