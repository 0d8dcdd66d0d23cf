package slowproof.app.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.app.WrittenAnswer;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.archive.sheet.Sheet;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.out.LineWriter;
import slowproof.wording.Wording;

/**
 * Makes the file of a written answer as the command line makes it from the files of the trial, so that it can be checked
 * against them.
 */
final class AnswerFile {
    private final Site site;

    AnswerFile(Site site) {
        this.site = site;
    }

    /**
     * Returns the file.
     *
     * @param sheet the trial
     * @param line the line that it speaks of too, asked in the language of the file; null for the trial alone
     * @param choice language, paper and form
     * @param release who releases it, or null for a draft
     * @param superseded what it supersedes, or null
     * @param reason why it supersedes that, empty for none
     * @throws slowproof.trial.input.BadInputException if the trial file would be questioned
     * @throws IOException if a file cannot be read or the layout fails
     */
    byte[] write(
            Sheet sheet,
            LinePage.@Nullable Asked line,
            AnswerChoice choice,
            WrittenAnswer.@Nullable Release release,
            @Nullable ReleasedAnswer superseded,
            String reason)
            throws IOException {
        Wording pages = Wording.of(choice.locale()).withPages();
        Evaluated evaluated = site.evaluated(sheet, pages);
        Map<String, byte[]> files =
                new LinkedHashMap<>(Downloads.trialFiles(evaluated, TrialPage.title(sheet, pages, site.zone())));
        if (line != null) {
            files.put(LineDownloads.LINE_FILE, LineWriter.bytes(LineDownloads.driven(line)));
        }
        WrittenAnswer.Superseded earlier = superseded == null ? null : read(superseded, reason);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Downloads.throughFiles(files, folder -> {
            LoadedTrial loaded = Downloads.loaded(folder, KeptRecordings.rawFiles(sheet.recordings(), site.archive()));
            LoadedLine described = line == null ? null : LineReader.read(folder.resolve(LineDownloads.LINE_FILE));
            bytes.write(new WrittenAnswer(loaded, described, Wording.of(choice.locale()))
                    .write(choice.html(), choice.size(), release, earlier));
        });
        return bytes.toByteArray();
    }

    private WrittenAnswer.Superseded read(ReleasedAnswer answer, String reason) throws IOException {
        Path file = site.archive().file(answer.sha256()).orElseThrow(() -> missing(answer));
        WrittenAnswer.Superseded superseded = WrittenAnswer.Superseded.read(file, reason);
        if (superseded == null) {
            throw missing(answer);
        }
        return superseded;
    }

    private static IOException missing(ReleasedAnswer answer) {
        return new IOException("the released answer " + answer.number() + " is not among the kept files, or is none: "
                + answer.sha256());
    }
}
