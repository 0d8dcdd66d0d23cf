package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.NewEvent;
import slowproof.archive.TakenIn;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.TrialEvents;
import slowproof.archive.typed.Typed;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.TrialReader;
import slowproof.wording.Wording;

class ParcelsTest {
    @TempDir
    Path folder;

    private static NewEvent notes(String text) {
        return Sheet.noting(
                FactName.NOTES,
                new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit()));
    }

    private static Map<String, String> entries(byte[] zip) throws IOException {
        Map<String, String> entries = new HashMap<>();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                entries.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        return entries;
    }

    @Test
    void whatIsRecordedBetweenEvaluatingAndWritingIsInNoPartOfTheFile() throws Exception {
        Wording wording = Wording.of(Locale.ENGLISH).withPages();
        byte[] zip;
        String id;
        try (Archive archive = Archive.open(folder.resolve("here"), Clock.systemUTC())) {
            id = archive.start(TrialEvents.of(TrialReader.read(Path.of("../docs/samples/first-trial/trial.yaml"))
                    .trial()));
            archive.append(id, "", List.of(notes("noted before")));
            Evaluated evaluated = new KeptRecordings(CacheFolder.NONE)
                    .evaluated(archive.sheet(id), archive, "unnamed", ZoneOffset.UTC);
            archive.append(id, "", List.of(notes("noted between")));
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            Parcels.write(archive, evaluated, wording, ZoneOffset.UTC, out);
            zip = out.toByteArray();
        }
        Map<String, String> entries = entries(zip);
        assertThat(entries).containsKeys("events.json", "history.csv", "notes.txt", "findings.json", "trial.yaml");
        assertThat(entries.get("events.json")).contains("noted before").doesNotContain("noted between");
        assertThat(entries.get("history.csv")).contains("noted before").doesNotContain("noted between");
        assertThat(entries.get("notes.txt")).contains("noted before").doesNotContain("noted between");
        try (Archive elsewhere = Archive.open(folder.resolve("elsewhere"), Clock.systemUTC())) {
            Path file = Files.write(folder.resolve("trial.zip"), zip);
            assertThat(Parcels.takeIn(file, elsewhere).outcome()).isEqualTo(TakenIn.Outcome.NEW);
            assertThat(elsewhere.sheet(id).facts().text(FactName.NOTES)).isEqualTo("noted before");
        }
    }
}
