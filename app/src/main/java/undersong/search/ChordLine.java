package undersong.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.search.PackedTimes.Moment;
import undersong.search.SongLines.ChordAt;
import undersong.theory.ChordQuality;

/** The chords of a song in order, seen from the key, in about six bytes each. */
public final class ChordLine {
  private static final ChordQuality[] QUALITIES = ChordQuality.values();

  /** More than the number of any chord. */
  static final int CODES = QUALITIES.length << 8;

  private static final Map<String, ChordQuality> BY_NAME = new HashMap<>();
  private static final Map<ChordQuality, Integer> NUMBERS = new EnumMap<>(ChordQuality.class);

  static {
    for (ChordQuality quality : QUALITIES) {
      NUMBERS.put(quality, NUMBERS.size());
      BY_NAME.put(quality.harte(), quality);
    }
  }

  /** Degree in the lowest four bits, bass in the next four, then which of the qualities. */
  private final short[] chords;

  private final PackedTimes times;

  private ChordLine(short[] chords, PackedTimes times) {
    this.chords = chords;
    this.times = times;
  }

  static ChordLine of(List<ChordAt> list) {
    short[] chords = new short[list.size()];
    List<Moment> moments = new ArrayList<>();
    for (int i = 0; i < chords.length; i++) {
      ChordAt chord = list.get(i);
      chords[i] = code(chord.degree(), chord.bass(), chord.quality());
      moments.add(new Moment(chord.startSeconds(), chord.endSeconds(), chord.bar()));
    }
    return new ChordLine(chords, PackedTimes.of(moments));
  }

  private static short code(int degree, int bass, ChordQuality quality) {
    return (short) (degree | bass << 4 | NUMBERS.get(quality) << 8);
  }

  /** One of every chord there can be. */
  static ChordLine everyChord() {
    List<ChordAt> all = new ArrayList<>();
    for (ChordQuality quality : QUALITIES) {
      for (int degree = 0; degree < 12; degree++) {
        for (int bass = 0; bass < 12; bass++) {
          all.add(new ChordAt(degree, quality, bass, 0, 0, 0));
        }
      }
    }
    return of(all);
  }

  public int size() {
    return chords.length;
  }

  /** A number for degree, quality and bass, below {@link #CODES}. */
  int code(int place) {
    return chords[place];
  }

  /** Semitones of the root above the tonic, 0 to 11. */
  int degree(int place) {
    return chords[place] & 0xf;
  }

  /** Semitones of the lowest note above the tonic, 0 to 11. */
  int bass(int place) {
    return chords[place] >> 4 & 0xf;
  }

  ChordQuality quality(int place) {
    return QUALITIES[chords[place] >> 8];
  }

  boolean same(int place, int other) {
    return chords[place] == chords[other];
  }

  Moment[] moments(int count) {
    return times.first(count);
  }

  List<ChordAt> list() {
    Moment[] moments = moments(size());
    List<ChordAt> list = new ArrayList<>();
    for (int i = 0; i < size(); i++) {
      Moment at = moments[i];
      list.add(
          new ChordAt(
              degree(i), quality(i), bass(i), at.startSeconds(), at.endSeconds(), at.bar()));
    }
    return list;
  }

  /** Names of the qualities that occur; for each chord degree, bass and which of them; times. */
  String print() {
    List<String> names = new ArrayList<>();
    byte[] bytes = new byte[3 * size()];
    for (int i = 0; i < size(); i++) {
      String name = quality(i).harte();
      if (!names.contains(name)) {
        names.add(name);
      }
      bytes[3 * i] = (byte) degree(i);
      bytes[3 * i + 1] = (byte) bass(i);
      bytes[3 * i + 2] = (byte) names.indexOf(name);
    }
    Base64.Encoder text = Base64.getEncoder();
    return String.join(" ", names)
        + "|"
        + text.encodeToString(bytes)
        + "|"
        + text.encodeToString(times.bytes());
  }

  static ChordLine parse(String names, String chords, String times) {
    String[] qualities = names.split(" ", -1);
    byte[] bytes = Base64.getDecoder().decode(chords);
    short[] codes = new short[bytes.length / 3];
    for (int i = 0; i < codes.length; i++) {
      String name = qualities[bytes[3 * i + 2]];
      ChordQuality quality = BY_NAME.get(name);
      if (quality == null) {
        throw new IllegalArgumentException("\"%s\" is no chord quality.".formatted(name));
      }
      codes[i] = code(bytes[3 * i], bytes[3 * i + 1], quality);
    }
    return new ChordLine(codes, new PackedTimes(Base64.getDecoder().decode(times)));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ChordLine line
        && Arrays.equals(chords, line.chords)
        && times.equals(line.times);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(chords) + times.hashCode();
  }

  @Override
  public String toString() {
    return list().toString();
  }
}
