package slowproof.app.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.RecordingCut;
import slowproof.files.trace.TraceFile;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.PeakZoom;
import slowproof.trial.recording.TrackRows;
import slowproof.wording.Units;
import slowproof.wording.Wording;

/**
 * What the page draws of a recording, as JSON: once the passes, the places without rows and the ends, then a window of
 * speeds each time the person looks closer. Written by hand: numbers and short words.
 */
final class UploadTrace {
    /** Pieces of a window when the page does not say. */
    static final int USUAL_PIECES = 1000;

    private static final int MOST_PIECES = 4000;

    private static final int MOST_OPEN = 4;
    private static final Map<Kept, TraceFile> OPEN = new LinkedHashMap<>(8, 0.75f, true);

    private UploadTrace() {}

    /** A file as it was when it was opened. */
    private record Kept(Path path, FileTime written, long bytes) {}

    /** Each look asks for the same file again: the last ones stay open. */
    private static TraceFile open(Path path) throws IOException {
        Kept kept = new Kept(path, Files.getLastModifiedTime(path), Files.size(path));
        synchronized (OPEN) {
            TraceFile file = OPEN.get(kept);
            if (file == null) {
                file = TraceFile.open(path);
                OPEN.put(kept, file);
                if (OPEN.size() > MOST_OPEN) {
                    OPEN.remove(OPEN.keySet().iterator().next());
                }
            }
            return file;
        }
    }

    /** Returns what holds for all windows. */
    static String around(RecordingCut cut, List<RecordedPass> passes, Wording wording) {
        StringBuilder out = new StringBuilder("{\"from\":")
                .append(cut.fromS())
                .append(",\"to\":")
                .append(cut.toS());
        out.append(",\"mark\":\"").append(wording.numbers().decimalSign()).append("\",\"passes\":[");
        String separator = "";
        for (RecordedPass pass : passes) {
            out.append(separator)
                    .append('[')
                    .append(pass.startS())
                    .append(',')
                    .append(pass.endS())
                    .append(",[");
            String comma = "";
            for (Flag flag : pass.flags()) {
                out.append(comma).append(quoted(wording.flag(flag)));
                comma = ",";
            }
            out.append("]]");
            separator = ",";
        }
        out.append("],\"breaks\":[");
        separator = "";
        for (Break place : cut.breaks()) {
            out.append(separator).append('[').append(Math.min(place.fromS(), place.toS()));
            out.append(',').append(Math.max(place.fromS(), place.toS())).append(']');
            separator = ",";
        }
        return out.append("]}").toString();
    }

    private static String quoted(String text) {
        return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }

    /**
     * Returns a window: for each track times and speeds as [[times],[values]] with null where the line is
     * interrupted, and the times at which the signal was lost.
     *
     * @param path file that keeps the recording
     * @param fromS start in s
     * @param toS end in s, after the start
     * @param pieces pieces that keep their extremes
     * @param unit unit of the speeds
     * @throws IOException if the recording is not kept any more
     */
    static String window(Path path, double fromS, double toS, int pieces, Units.Speed unit) throws IOException {
        TraceFile file = open(path);
        int[] interruptions = file.interruptions();
        int count = Math.max(1, Math.min(pieces, MOST_PIECES));
        double factor = unit.fromMmPerS(1);
        StringBuilder out = new StringBuilder("{\"reference\":");
        line(out, file.track(TraceFile.Track.REFERENCE), interruptions, fromS, toS, count, factor);
        out.append(",\"indicated\":");
        line(out, file.track(TraceFile.Track.INDICATED), interruptions, fromS, toS, count, factor);
        out.append(",\"lost\":[");
        TrackRows dropout = file.track(TraceFile.Track.DROPOUT);
        if (dropout != null) {
            PeakLine lost = PeakZoom.of(dropout, interruptions, fromS, toS, count);
            String separator = "";
            for (int i = 0; i < lost.size(); i++) {
                if (lost.value().at(i) > 0) {
                    out.append(separator).append(lost.timeS().at(i));
                    separator = ",";
                }
            }
        }
        return out.append("]}").toString();
    }

    private static void line(
            StringBuilder out,
            @Nullable TrackRows rows,
            int[] interruptions,
            double fromS,
            double toS,
            int pieces,
            double factor) {
        if (rows == null) {
            out.append("[[],[]]");
            return;
        }
        PeakLine line = PeakZoom.of(rows, interruptions, fromS, toS, pieces);
        out.append("[[");
        for (int i = 0; i < line.size(); i++) {
            out.append(i == 0 ? "" : ",").append(line.timeS().at(i));
        }
        out.append("],[");
        for (int i = 0; i < line.size(); i++) {
            double value = line.value().at(i);
            out.append(i == 0 ? "" : ",");
            if (Double.isNaN(value)) {
                out.append("null");
            } else {
                out.append((float) (factor * value));
            }
        }
        out.append("]]");
    }
}
