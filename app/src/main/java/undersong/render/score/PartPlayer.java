package undersong.render.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.render.synth.Sound;
import undersong.theory.ChordSymbol.Chord;

/** Plays one part through the whole score: written notes as they stand, patterns on the chords. */
final class PartPlayer {
  private static final double JOINED_BEATS = 0.02;
  private static final double NORMAL = 0.72;
  private static final double ACCENT = 0.95;

  /** A hit of a pattern: which voices it takes and how long it lasts, in beats of the song. */
  private record Hit(double startBeat, double endBeat, char mark) {}

  private final Score score;
  private final List<ChordEvent> chords;
  private final Part part;
  private final List<PlayedNote> notes = new ArrayList<>();
  private final Map<ChordEvent, int[]> voicings = new HashMap<>();

  PartPlayer(Score score, List<ChordEvent> chords, Part part) {
    this.score = score;
    this.chords = chords;
    this.part = part;
    if (!part.sound().isDrum() && !part.sound().isSweep()) {
      voiceChords();
    }
  }

  List<PlayedNote> notes() {
    for (int s = 0; s < score.sections().size(); s++) {
      Line line = score.sections().get(s).lines().get(part.name());
      if (line == null) {
        continue;
      }
      if (line.pattern().isEmpty()) {
        playWritten(s, line);
      } else if (line.pattern().get().isHeld()) {
        holdChords(s);
      } else {
        playPattern(s, line.pattern().get());
      }
    }
    return notes;
  }

  private boolean playsOneNote() {
    return part.role() == PartRole.BASS || part.sound() == Sound.SUB;
  }

  private void voiceChords() {
    int[] before = {};
    for (ChordEvent event : chords) {
      if (event.symbol() instanceof Chord chord) {
        before =
            playsOneNote()
                ? bassVoices(chord, before)
                : Voicing.nearest(chord, before, part.lowest(), part.highest());
        voicings.put(event, before);
      }
    }
  }

  private int[] bassVoices(Chord chord, int[] before) {
    int from = before.length == 0 ? (part.lowest() + part.highest()) / 2 : before[0];
    int bass = Voicing.nearestPitch(chord.bass().pitchClass(), from, part.lowest(), part.highest());
    int fifth = bass + Math.floorMod(chord.root().pitchClass() + 7 - bass, 12);
    return new int[] {bass, fifth, bass + 12};
  }

  private void playWritten(int s, Line line) {
    double first = Performance.firstBeat(score, s);
    String vowel = "";
    for (int i = 0; i < line.notes().size(); i++) {
      Placed<Written> placed = line.notes().get(i);
      String syllable = line.syllables().isEmpty() ? "" : line.syllables().get(i);
      boolean begins = !syllable.equals("_");
      String sung = begins ? syllable : vowel;
      vowel = fromVowel(sung);
      double start = first + placed.startBeat();
      Written written = placed.value();
      add(
          s,
          start,
          start + placed.lengthBeats(),
          written.midiPitch(),
          written.strength(),
          written.thrown(),
          sung,
          begins);
    }
  }

  private static String fromVowel(String syllable) {
    return syllable.toLowerCase(Locale.ROOT).replaceFirst("^[^aeiou]+(?=.)", "");
  }

  /** One note per voice and chord; a voice that stays is not struck again. */
  private void holdChords(int s) {
    Map<Integer, Integer> sounding = new HashMap<>();
    for (ChordEvent event : chords) {
      double sectionStart = Performance.firstBeat(score, s) - score.sections().get(s).earlyBeats();
      double sectionEnd = end(s);
      double start = Math.max(event.arrivalBeat(), Math.max(0, sectionStart));
      double end = Math.min(event.endBeat(), sectionEnd);
      if (!voicings.containsKey(event) || end - start < 1e-6) {
        continue;
      }
      Map<Integer, Integer> next = new HashMap<>();
      for (int pitch : heldVoices(event)) {
        Integer index = sounding.get(pitch);
        if (index == null) {
          add(s, start, end, pitch, NORMAL, false, "", false);
          next.put(pitch, notes.size() - 1);
        } else {
          notes.set(index, lengthened(notes.get(index), end));
          next.put(pitch, index);
        }
      }
      sounding = next;
    }
  }

  private int[] heldVoices(ChordEvent event) {
    int[] voices = voicings.get(event);
    return playsOneNote() ? new int[] {voices[0]} : voices;
  }

  private PlayedNote lengthened(PlayedNote note, double endBeat) {
    return new PlayedNote(
        note.part(),
        note.sectionIndex(),
        note.startBeat(),
        endBeat,
        note.startSeconds(),
        score.secondsAt(endBeat),
        note.midiPitch(),
        note.strength(),
        note.thrown(),
        note.syllable(),
        note.beginsSyllable(),
        note.joinsPrevious());
  }

  private void playPattern(int s, Pattern pattern) {
    for (Hit hit : hits(s, pattern)) {
      double strength = hit.mark() == 'X' ? ACCENT : NORMAL;
      if (part.sound().isDrum() || part.sound().isSweep()) {
        add(s, hit.startBeat(), hit.endBeat(), 0, strength, false, "", false);
        continue;
      }
      for (ChordEvent event : chords) {
        double start = Math.max(hit.startBeat(), event.arrivalBeat());
        double end = Math.min(hit.endBeat(), event.endBeat());
        if (end - start > 1e-6 && voicings.containsKey(event)) {
          for (int pitch : voices(voicings.get(event), hit.mark())) {
            add(s, start, end, pitch, strength, false, "", false);
          }
        }
      }
    }
  }

  private int[] voices(int[] all, char mark) {
    if (playsOneNote()) {
      return new int[] {mark == '5' ? all[1] : mark == '8' ? all[2] : all[0]};
    }
    if (mark == 'x' || mark == 'X') {
      return all;
    }
    int voice = mark - '1';
    return new int[] {all[voice % all.length] + 12 * (voice / all.length)};
  }

  /** The part's hits within the section, early where it follows early chords. */
  private List<Hit> hits(int s, Pattern pattern) {
    ScoreSection section = score.sections().get(s);
    boolean follows = part.role() != PartRole.DRUMS && part.role() != PartRole.EFFECT;
    double early = follows || part.sound() == Sound.SUB ? section.earlyBeats() : 0;
    double first = Performance.firstBeat(score, s) - early;
    double last = part.role() == PartRole.DRUMS ? Performance.firstBeat(score, s + 1) : end(s);
    List<Hit> hits = new ArrayList<>();
    boolean holding = false;
    for (int bar = 0; bar < section.bars(); bar++) {
      String text = pattern.bars().get(bar % pattern.bars().size());
      double slot = (double) section.meter().beats() / text.length();
      for (int i = 0; i < text.length(); i++) {
        double start = first + bar * section.meter().beats() + i * slot;
        char mark = text.charAt(i);
        if (mark == '-' && holding) {
          Hit before = hits.remove(hits.size() - 1);
          hits.add(new Hit(before.startBeat(), start + slot, before.mark()));
        } else if (mark != '.' && mark != '-' && start < last - 1e-6) {
          hits.add(new Hit(Math.max(0, start), start + slot, mark));
          holding = true;
        } else if (mark == '.') {
          holding = false;
        }
      }
    }
    return cut(hits, first + section.beats(), last);
  }

  /** Ends what sounds at the section's end where the next chord begins, sooner or later. */
  private static List<Hit> cut(List<Hit> hits, double written, double last) {
    List<Hit> cut = new ArrayList<>();
    for (Hit hit : hits) {
      boolean holdsToTheEnd = hit.endBeat() > written - 1e-6;
      double end = holdsToTheEnd ? last : Math.min(hit.endBeat(), last);
      cut.add(new Hit(hit.startBeat(), end, hit.mark()));
    }
    return cut;
  }

  /** Where the section's chords give way: early where the next section's chords come early. */
  private double end(int s) {
    boolean more = s + 1 < score.sections().size();
    double early = more ? score.sections().get(s + 1).earlyBeats() : 0;
    return Performance.firstBeat(score, s + 1) - early;
  }

  private void add(
      int s,
      double start,
      double end,
      int pitch,
      double strength,
      boolean thrown,
      String syllable,
      boolean begins) {
    PlayedNote before = notes.isEmpty() ? null : notes.get(notes.size() - 1);
    boolean joins =
        before != null
            && before.startBeat() < start - JOINED_BEATS
            && Math.abs(before.endBeat() - start) < JOINED_BEATS;
    notes.add(
        new PlayedNote(
            part,
            s,
            start,
            end,
            score.secondsAt(start),
            score.secondsAt(end),
            pitch,
            strength,
            thrown,
            syllable,
            begins,
            joins));
  }
}
