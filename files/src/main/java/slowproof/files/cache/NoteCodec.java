package slowproof.files.cache;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/** Writes remarks and reads them back. */
public final class NoteCodec {
    private NoteCodec() {}

    /**
     * Writes remarks.
     *
     * @throws IOException if the stream fails, or an argument is of a kind that cannot be kept
     */
    public static void write(DataOutputStream out, List<Note> notes) throws IOException {
        out.writeInt(notes.size());
        for (Note note : notes) {
            out.writeUTF(note.code().name());
            out.writeUTF(note.where());
            out.writeInt(note.arguments().size());
            for (Object argument : note.arguments()) {
                if (argument instanceof String text) {
                    out.writeByte('t');
                    out.writeUTF(text);
                } else if (argument instanceof Quantity quantity) {
                    out.writeByte('q');
                    out.writeDouble(quantity.value());
                    out.writeUTF(quantity.unit().name());
                } else if (argument instanceof Integer number) {
                    out.writeByte('i');
                    out.writeInt(number);
                } else if (argument instanceof Long number) {
                    out.writeByte('l');
                    out.writeLong(number);
                } else if (argument instanceof Double number) {
                    out.writeByte('d');
                    out.writeDouble(number);
                } else {
                    throw new IOException("an argument of a remark that cannot be kept: " + argument.getClass());
                }
            }
        }
    }

    /**
     * Reads remarks.
     *
     * @throws IOException if they are not what was written
     */
    public static List<Note> read(DataInputStream in) throws IOException {
        List<Note> notes = new ArrayList<>();
        int count = in.readInt();
        for (int i = 0; i < count; i++) {
            NoteCode code = NoteCode.valueOf(in.readUTF());
            String where = in.readUTF();
            int size = in.readInt();
            List<Object> arguments = new ArrayList<>();
            for (int k = 0; k < size; k++) {
                arguments.add(
                        switch (in.readByte()) {
                            case 't' -> in.readUTF();
                            case 'q' -> new Quantity(in.readDouble(), Unit.valueOf(in.readUTF()));
                            case 'i' -> in.readInt();
                            case 'l' -> in.readLong();
                            case 'd' -> in.readDouble();
                            default -> throw new IOException("spoiled");
                        });
            }
            notes.add(new Note(code, where, arguments));
        }
        return notes;
    }
}
