package slowproof.files.in;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.cache.Checked;
import slowproof.files.cache.NoteCodec;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.note.Note;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.SpeedTrace;
import slowproof.trial.recording.StandstillDrift;

/**
 * What a recording came to: how it was read, brought together and cut, and its passes. Material, set-up, programmed
 * speed and acceleration of the passes are the trial's and left open here, so that correcting them needs no new reading.
 *
 * @param readAs format in words
 * @param clock relation of its two clocks; null with one clock
 * @param reason why there is no clock relation; null with one
 * @param cut how it was cut
 * @param passes its passes
 * @param notes remarks on reading, clocks and cutting
 * @param sources the files, with their fingerprints
 */
record Cutting(
        String readAs,
        RecordingRead.@Nullable Clock clock,
        @Nullable String reason,
        RecordingCut cut,
        List<RecordedPass> passes,
        List<Note> notes,
        List<SourceFile> sources) {

    /** Returns what is kept under a name, or null. */
    static @Nullable Cutting get(CacheFolder cache, String name) {
        return cache.get(name, channel -> read(Checked.read(channel)));
    }

    void put(CacheFolder cache, String name) {
        cache.put(name, channel -> Checked.write(channel, this::write));
    }

    private void write(DataOutputStream out) throws IOException {
        out.writeUTF(readAs);
        out.writeBoolean(clock != null);
        if (clock != null) {
            out.writeDouble(clock.offsetS());
            number(out, clock.driftPpm());
            out.writeDouble(clock.offsetStandardUncertaintyS());
            number(out, clock.driftStandardUncertaintyPpm());
            out.writeDouble(clock.epochS());
            out.writeDouble(clock.offsetMidS());
            out.writeDouble(clock.offsetMidStandardUncertaintyS());
        }
        out.writeBoolean(reason != null);
        if (reason != null) {
            out.writeUTF(reason);
        }
        cut(out);
        out.writeInt(passes.size());
        for (RecordedPass pass : passes) {
            pass(out, pass);
        }
        NoteCodec.write(out, notes);
        out.writeInt(sources.size());
        for (SourceFile source : sources) {
            out.writeUTF(source.name());
            out.writeUTF(source.sha256());
        }
    }

    private static Cutting read(DataInputStream in) throws IOException {
        String readAs = in.readUTF();
        RecordingRead.Clock clock = in.readBoolean()
                ? new RecordingRead.Clock(
                        in.readDouble(),
                        number(in),
                        in.readDouble(),
                        number(in),
                        in.readDouble(),
                        in.readDouble(),
                        in.readDouble())
                : null;
        String reason = in.readBoolean() ? in.readUTF() : null;
        RecordingCut cut = cut(in);
        List<RecordedPass> passes = new ArrayList<>();
        int count = in.readInt();
        for (int i = 0; i < count; i++) {
            passes.add(pass(in, cut.name()));
        }
        List<Note> notes = NoteCodec.read(in);
        List<SourceFile> sources = new ArrayList<>();
        int files = in.readInt();
        for (int i = 0; i < files; i++) {
            sources.add(new SourceFile(in.readUTF(), in.readUTF()));
        }
        return new Cutting(readAs, clock, reason, cut, passes, notes, sources);
    }

    private void cut(DataOutputStream out) throws IOException {
        out.writeUTF(cut.name());
        out.writeLong(cut.rows());
        out.writeDouble(cut.fromS());
        out.writeDouble(cut.toS());
        out.writeDouble(cut.intervalS());
        out.writeInt(cut.parts());
        out.writeInt(cut.breaks().size());
        for (Break place : cut.breaks()) {
            out.writeUTF(place.cause().name());
            out.writeInt(place.row());
            out.writeLong(place.line());
            out.writeDouble(place.fromS());
            out.writeDouble(place.toS());
            out.writeBoolean(place.splits());
        }
        out.writeInt(cut.standstills());
        out.writeInt(cut.passes());
        out.writeDouble(cut.dwellS());
        out.writeDouble(cut.stillBelowMmPerS());
        out.writeDouble(cut.movingAboveMmPerS());
        out.writeBoolean(cut.thresholdStated());
        out.writeDouble(cut.restNoiseMm());
        StandstillDrift drift = cut.drift();
        out.writeBoolean(drift != null);
        if (drift != null) {
            out.writeDouble(drift.mmPerMin());
            out.writeDouble(drift.standardUncertaintyMmPerMin());
            out.writeInt(drift.standstills());
            out.writeDouble(drift.observedS());
        }
        SpeedTrace trace = cut.trace();
        out.writeBoolean(trace != null);
        if (trace != null) {
            trace(out, trace);
        }
    }

    private static void trace(DataOutputStream out, SpeedTrace trace) throws IOException {
        out.writeDouble(trace.fromS());
        out.writeDouble(trace.stepS());
        out.writeDouble(trace.gateS());
        for (PeakLine line : List.of(trace.referenceMmPerS(), trace.indicatedMmPerS())) {
            column(out, line.timeS());
            column(out, line.value());
        }
        column(out, trace.dropout());
    }

    private static void column(DataOutputStream out, Column column) throws IOException {
        out.writeInt(column.size());
        for (int i = 0; i < column.size(); i++) {
            out.writeDouble(column.at(i));
        }
    }

    private static RecordingCut cut(DataInputStream in) throws IOException {
        String name = in.readUTF();
        long rows = in.readLong();
        double from = in.readDouble();
        double to = in.readDouble();
        double interval = in.readDouble();
        int parts = in.readInt();
        List<Break> breaks = new ArrayList<>();
        int count = in.readInt();
        for (int i = 0; i < count; i++) {
            breaks.add(new Break(
                    Break.Cause.valueOf(in.readUTF()),
                    in.readInt(),
                    in.readLong(),
                    in.readDouble(),
                    in.readDouble(),
                    in.readBoolean()));
        }
        return new RecordingCut(
                name,
                rows,
                from,
                to,
                interval,
                parts,
                breaks,
                in.readInt(),
                in.readInt(),
                in.readDouble(),
                in.readDouble(),
                in.readDouble(),
                in.readBoolean(),
                in.readDouble(),
                in.readBoolean() ? drift(in) : null,
                in.readBoolean() ? trace(in) : null);
    }

    private static StandstillDrift drift(DataInputStream in) throws IOException {
        return new StandstillDrift(in.readDouble(), in.readDouble(), in.readInt(), in.readDouble());
    }

    private static SpeedTrace trace(DataInputStream in) throws IOException {
        return new SpeedTrace(in.readDouble(), in.readDouble(), in.readDouble(), line(in), line(in), column(in));
    }

    private static PeakLine line(DataInputStream in) throws IOException {
        return new PeakLine(column(in), column(in));
    }

    private static Column column(DataInputStream in) throws IOException {
        int size = in.readInt();
        Column.Builder column = new Column.Builder(size);
        for (int i = 0; i < size; i++) {
            column.add(in.readDouble());
        }
        return column.build();
    }

    private static void pass(DataOutputStream out, RecordedPass pass) throws IOException {
        out.writeDouble(pass.plateauSpeedMmPerS());
        out.writeDouble(pass.startS());
        out.writeDouble(pass.endS());
        out.writeDouble(pass.referenceMm());
        out.writeDouble(pass.indicationMm());
        number(out, pass.dropoutPercent());
        IndicatedSpeed speed = pass.speed();
        out.writeBoolean(speed != null);
        if (speed != null) {
            speed(out, speed);
        }
        out.writeDouble(pass.standstillDriftMm());
        out.writeBoolean(pass.joined());
        out.writeInt(pass.flags().size());
        for (Flag flag : pass.flags()) {
            out.writeUTF(flag.name());
        }
    }

    private static RecordedPass pass(DataInputStream in, String name) throws IOException {
        double plateau = in.readDouble();
        double start = in.readDouble();
        double end = in.readDouble();
        double reference = in.readDouble();
        double indication = in.readDouble();
        Double dropout = number(in);
        IndicatedSpeed speed = in.readBoolean() ? speed(in) : null;
        double drift = in.readDouble();
        boolean joined = in.readBoolean();
        List<Flag> flags = new ArrayList<>();
        int count = in.readInt();
        for (int i = 0; i < count; i++) {
            flags.add(Flag.valueOf(in.readUTF()));
        }
        return new RecordedPass(
                name,
                "",
                "",
                null,
                plateau,
                null,
                start,
                end,
                reference,
                indication,
                dropout,
                speed,
                drift,
                joined,
                flags);
    }

    private static void speed(DataOutputStream out, IndicatedSpeed speed) throws IOException {
        out.writeDouble(speed.error());
        number(out, speed.standardUncertainty());
        Ripple ripple = speed.ripple();
        out.writeBoolean(ripple != null);
        if (ripple != null) {
            out.writeDouble(ripple.standardDeviation());
            out.writeDouble(ripple.countingShare());
            out.writeDouble(ripple.averagingS());
        }
    }

    private static IndicatedSpeed speed(DataInputStream in) throws IOException {
        return new IndicatedSpeed(
                in.readDouble(),
                number(in),
                in.readBoolean() ? new Ripple(in.readDouble(), in.readDouble(), in.readDouble()) : null);
    }

    /** A figure that may be unknown. */
    private static void number(DataOutputStream out, @Nullable Double value) throws IOException {
        out.writeBoolean(value != null);
        if (value != null) {
            out.writeDouble(value);
        }
    }

    private static @Nullable Double number(DataInputStream in) throws IOException {
        return in.readBoolean() ? Double.valueOf(in.readDouble()) : null;
    }
}
