package undersong.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import undersong.search.PackedTimes.Moment;
import undersong.search.SongLines.NoteAt;

/** The notes of a tune or a bass in order, seen from the key, in about seven bytes each. */
public final class NoteLine {
  private static final int BYTES = 3;
  private static final double STEPS_PER_BEAT = 4;
  private static final int MOST_STEPS = 255;

  /** Of each note the MIDI number, the degree, and the quarter beats since the note before. */
  private final byte[] notes;

  private final PackedTimes times;

  private NoteLine(byte[] notes, PackedTimes times) {
    this.notes = notes;
    this.times = times;
  }

  static NoteLine of(List<NoteAt> list) {
    byte[] notes = new byte[BYTES * list.size()];
    List<Moment> moments = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      NoteAt note = list.get(i);
      long steps = Math.round(STEPS_PER_BEAT * note.beats());
      notes[BYTES * i] = (byte) note.midi();
      notes[BYTES * i + 1] = (byte) note.degree();
      notes[BYTES * i + 2] = (byte) Math.max(0, Math.min(MOST_STEPS, steps));
      moments.add(new Moment(note.startSeconds(), note.endSeconds(), note.bar()));
    }
    return new NoteLine(notes, PackedTimes.of(moments));
  }

  public int size() {
    return notes.length / BYTES;
  }

  int midi(int place) {
    return notes[BYTES * place];
  }

  /** Semitones above the tonic, 0 to 11. */
  int degree(int place) {
    return notes[BYTES * place + 1];
  }

  /** From the beginning of the note before; to a quarter of a beat, at most 63.75. */
  double beats(int place) {
    return (notes[BYTES * place + 2] & 0xff) / STEPS_PER_BEAT;
  }

  /** Semitones from the note before. */
  int step(int place) {
    return midi(place) - midi(place - 1);
  }

  Moment[] moments(int count) {
    return times.first(count);
  }

  List<NoteAt> list() {
    Moment[] moments = moments(size());
    List<NoteAt> list = new ArrayList<>();
    for (int i = 0; i < size(); i++) {
      Moment at = moments[i];
      list.add(
          new NoteAt(degree(i), midi(i), beats(i), at.startSeconds(), at.endSeconds(), at.bar()));
    }
    return list;
  }

  String print() {
    Base64.Encoder text = Base64.getEncoder();
    return text.encodeToString(notes) + "|" + text.encodeToString(times.bytes());
  }

  static NoteLine parse(String notes, String times) {
    Base64.Decoder text = Base64.getDecoder();
    return new NoteLine(text.decode(notes), new PackedTimes(text.decode(times)));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof NoteLine line
        && Arrays.equals(notes, line.notes)
        && times.equals(line.times);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(notes) + times.hashCode();
  }

  @Override
  public String toString() {
    return list().toString();
  }
}
