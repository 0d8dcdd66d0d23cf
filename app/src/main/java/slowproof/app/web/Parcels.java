package slowproof.app.web;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.app.FileNames;
import slowproof.app.Program;
import slowproof.app.ResultCache;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.RecordedEvent;
import slowproof.archive.TakenIn;
import slowproof.archive.parcel.ParcelReader;
import slowproof.archive.parcel.ParcelRefusedException;
import slowproof.archive.parcel.ParcelWriter;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/** Whole trials as one file: out of an archive and into another one. */
public final class Parcels {
    private static final Logger LOG = LoggerFactory.getLogger(Parcels.class);

    private Parcels() {}

    /**
     * Writes a trial; the stream stays open. The same trial, program, language and zone give the same bytes.
     *
     * @param archive where the trial is
     * @param trial id of the trial
     * @param wording language of notes and sentences
     * @param zone zone in which times are written
     * @param stream where to
     * @throws IOException if the stream fails or a raw file cannot be read
     * @throws slowproof.archive.UnknownTrialException if there is no such trial
     */
    public static void write(Archive archive, String trial, Wording wording, ZoneId zone, OutputStream stream)
            throws IOException {
        Sheet sheet = archive.sheet(trial);
        Evaluated evaluated = new KeptRecordings(ResultCache.ofUser())
                .evaluated(sheet, archive, wording.text("surface.unnamed"), zone);
        write(archive, evaluated, wording, zone, stream);
    }

    static void write(Archive archive, Evaluated evaluated, Wording wording, ZoneId zone, OutputStream stream)
            throws IOException {
        Sheet sheet = evaluated.sheet();
        // events are only ever added: those up to the last one of the sheet are the trial as it was evaluated
        List<RecordedEvent> events = archive.recorded(sheet.id()).stream()
                .filter(recorded -> recorded.event().seq() <= sheet.lastSeq())
                .toList();
        String title = TrialPage.title(sheet, wording, zone);
        Map<String, byte[]> derived = new LinkedHashMap<>();
        if (evaluated.meaning().trial() != null) {
            derived.putAll(Downloads.trialFiles(evaluated, title));
            if (evaluated.hasFindings()) {
                addFindings(derived, KeptRecordings.rawFiles(sheet.recordings(), archive), wording);
            }
        }
        derived.put("notes.txt", notes(sheet, title, wording).getBytes(StandardCharsets.UTF_8));
        derived.put("history.csv", history(events).getBytes(StandardCharsets.UTF_8));
        ParcelWriter.write(archive, sheet.id(), events, Program.build(), derived, stream);
    }

    private static void addFindings(Map<String, byte[]> derived, Map<String, Path> raw, Wording wording)
            throws IOException {
        try {
            derived.put("findings.json", Downloads.written(derived, raw, wording, Downloads::json));
        } catch (BadInputException e) {
            // what was recorded leaves the archive whole, also where its trial file would be questioned
            LOG.warn("no findings in the file of {}: {}", derived.keySet(), e.getMessage());
        }
    }

    /** Returns the name of the file for a trial. */
    public static String fileName(Archive archive, String trial, Wording wording, ZoneId zone) {
        return FileNames.of(TrialPage.title(archive.sheet(trial), wording, zone), "trial") + ".zip";
    }

    /**
     * Takes a file into an archive, all of it or nothing.
     *
     * @return what became of it
     * @throws ParcelRefusedException if it is no whole and sound trial, or its trial went on differently here
     * @throws IOException if it cannot be read
     */
    public static TakenIn takeIn(Path file, Archive archive) throws IOException, ParcelRefusedException {
        return ParcelReader.takeIn(file, archive);
    }

    /** Returns the sentence that says why a file was refused and how to mend it. */
    public static String sentence(ParcelRefusedException refusal, Wording wording) {
        return wording.text(refusal.key(), refusal.arguments().toArray());
    }

    private static String notes(Sheet sheet, String title, Wording wording) {
        StringBuilder text = new StringBuilder(title).append("\n\n");
        for (FactName name : FactName.values()) {
            String noted = sheet.facts().text(name);
            if (name.kind() == FactName.Kind.TEXT && !noted.isEmpty()) {
                text.append(wording.text("fact." + name.key()))
                        .append(": ")
                        .append(noted)
                        .append('\n');
            }
        }
        return text.toString();
    }

    /** Everything that was recorded, as typed, in order. */
    private static String history(List<RecordedEvent> events) {
        StringBuilder text = new StringBuilder("seq,at,who,kind,field,text\n");
        for (RecordedEvent recorded : events) {
            Event event = recorded.event();
            String start = event.seq() + "," + event.at() + "," + quoted(event.who()) + ","
                    + event.kind().key() + ",";
            if (event.fields().isEmpty()) {
                text.append(start).append(",\n");
            }
            event.fields()
                    .forEach((field, typed) -> text.append(start)
                            .append(quoted(field))
                            .append(',')
                            .append(quoted(typed))
                            .append('\n'));
        }
        return text.toString();
    }

    /** What a spreadsheet would take for a formula gets an apostrophe before it, as in the other tables; numbers stay. */
    private static String quoted(String text) {
        boolean number = text.matches("[+-]?[0-9][0-9.,]*");
        boolean formula = !number && !text.isEmpty() && "=+-@\t\r\n".indexOf(text.charAt(0)) >= 0;
        String safe = formula ? "'" + text : text;
        return "\"" + safe.replace("\"", "\"\"") + "\"";
    }
}
