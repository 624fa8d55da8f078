package undersong.render;

import java.util.List;
import undersong.render.score.Mix;
import undersong.render.score.Part;
import undersong.render.score.Performance;
import undersong.render.score.PlayedNote;
import undersong.render.synth.Effects;
import undersong.render.synth.Ensemble;
import undersong.render.synth.Instrument;
import undersong.render.synth.Noise;
import undersong.render.synth.Sound;
import undersong.render.synth.ToneRequest;

/** Adds up sections of a performance into two channels and a send to the room. */
final class Mixdown {
  /** What may sound before a section's first bar line: early chords, consonants. */
  private static final double LEAD_SECONDS = 1.5;

  /** What may ring on after its last: releases, echoes. */
  private static final double RING_SECONDS = 4;

  private final Performance performance;
  private final Ensemble ensemble;
  private final int firstSample;
  private final float[] left;
  private final float[] right;
  private final float[] room;

  Mixdown(Performance performance, Ensemble ensemble, double startSeconds, double endSeconds) {
    this.performance = performance;
    this.ensemble = ensemble;
    this.firstSample = Instrument.samples(startSeconds);
    int size = Instrument.samples(endSeconds) - firstSample;
    this.left = new float[size];
    this.right = new float[size];
    this.room = new float[size];
  }

  float[] left() {
    return left;
  }

  float[] right() {
    return right;
  }

  float[] room() {
    return room;
  }

  void addSection(int section) {
    int[] kicks =
        performance.notes().stream()
            .filter(n -> n.part().sound() == Sound.KICK && n.sectionIndex() == section)
            .mapToInt(n -> Instrument.samples(n.startSeconds()))
            .toArray();
    for (Part part : performance.score().parts()) {
      List<PlayedNote> notes = performance.notes(part, section);
      if (!notes.isEmpty()) {
        addPart(part, section, notes, kicks);
      }
    }
  }

  private void addPart(Part part, int section, List<PlayedNote> notes, int[] kicks) {
    Mix mix = performance.mix(part, section).orElseThrow();
    int start = Instrument.samples(performance.sectionStartSeconds(section) - LEAD_SECONDS);
    int end = Instrument.samples(performance.sectionEndSeconds(section));
    Block block = new Block(start, end - start + Instrument.samples(RING_SECONDS));
    Block thrown = mix.get("throw") > 0 ? new Block(start, block.size()) : null;
    double spread = mix.get("double");
    if (spread > 0) {
      playTake(part, mix, notes, 1, mix.get("pan") - spread, block, thrown);
      playTake(part, mix, notes, 2, mix.get("pan") + spread, block, thrown);
    } else {
      playTake(part, mix, notes, 0, mix.get("pan"), block, thrown);
    }
    treat(block, mix, section, kicks);
    if (thrown != null) {
      echo(thrown, block, mix.get("throw"), mix.get("echo-fall"));
    }
    block.addTo(left, right, room, firstSample, (float) mix.get("reverb"));
  }

  /**
   * Plays the notes once.
   *
   * @param take 0 = the only one; 1 and 2 = two takes, each with wanderings of its own
   */
  private void playTake(
      Part part, Mix mix, List<PlayedNote> notes, int take, double pan, Block block, Block thrown) {
    Instrument instrument = ensemble.of(part.sound());
    float level = (float) Effects.gain(mix.get("level") - (take > 0 ? 3 : 0));
    double lateSeconds = take == 2 ? 0.012 : 0;
    double wanderSeconds = mix.get("loose") / 1000 + (take > 0 ? 0.006 : 0);
    double wanderCents = mix.get("untuned") + (take > 0 ? 7 : 0);
    Block target = mix.get("drive") > 0 ? new Block(block.start(), block.size()) : block;
    double place = target == block ? pan : -1;
    float toneLevel = target == block ? level : 1;
    int turn = 0;
    double before = Double.NEGATIVE_INFINITY;
    double hertzBefore = 0;
    for (int i = 0; i < notes.size(); i++) {
      PlayedNote note = notes.get(i);
      turn += note.startBeat() > before + 1e-6 ? 1 : 0;
      before = note.startBeat();
      long seed = seed(part, note, take, i);
      Noise chance = new Noise(seed);
      double hertz = hertz(note.midiPitch(), wanderCents * chance.next());
      double from = glideFrom(part, note, hertz, hertzBefore);
      double start = note.startSeconds() + lateSeconds + wanderSeconds * chance.next();
      int length = Math.max(64, Instrument.samples(note.endSeconds() - note.startSeconds()));
      String text = note.syllable();
      float[] tone =
          instrument.play(new ToneRequest(hertz, length, note.strength(), from, text, seed));
      int at = Instrument.samples(start) - instrument.leadInSamples();
      double side = mix.get("sway") > 0 ? mix.get("sway") * (turn % 2 == 0 ? 1 : -1) : place;
      target.add(tone, at, side, toneLevel);
      if (thrown != null && note.thrown()) {
        thrown.add(tone, at, side, toneLevel);
      }
      hertzBefore = hertz;
    }
    if (target != block) {
      // Bent as one mono sound, as one amplifier would, then placed.
      Effects.drive(target.left(), mix.get("drive"));
      block.add(target.left(), target.start(), pan, level);
    }
  }

  private double hertz(int midiPitch, double cents) {
    if (midiPitch == 0) {
      return 100;
    }
    double semitones = midiPitch - 69 + (cents + performance.score().tuningCents()) / 100;
    return 440 * StrictMath.pow(2, semitones / 12);
  }

  private static double glideFrom(Part part, PlayedNote note, double hertz, double hertzBefore) {
    if (!part.sound().isSung()) {
      return hertz;
    }
    if (note.joinsPrevious() && hertzBefore > 0) {
      return hertzBefore;
    }
    return hertz * 0.975; // sung from a little below
  }

  private long seed(Part part, PlayedNote note, int take, int index) {
    long seed = performance.score().seed();
    for (int value : new int[] {part.name().hashCode(), note.sectionIndex(), take, index}) {
      seed = seed * 1_000_003L + value;
    }
    return seed;
  }

  private void treat(Block block, Mix mix, int section, int[] kicks) {
    if (mix.get("sweep-from") > 0 && mix.get("sweep-to") > 0) {
      int first = Instrument.samples(performance.sectionStartSeconds(section)) - block.start();
      int last = Instrument.samples(performance.sectionEndSeconds(section)) - block.start();
      for (float[] channel : new float[][] {block.left(), block.right()}) {
        Effects.sweep(channel, mix.get("sweep-from"), mix.get("sweep-to"), first, last);
      }
    }
    if (mix.get("duck") > 0) {
      int[] hits = new int[kicks.length];
      for (int i = 0; i < hits.length; i++) {
        hits[i] = kicks[i] - block.start();
      }
      Effects.duck(block.left(), hits, mix.get("duck"));
      Effects.duck(block.right(), hits, mix.get("duck"));
    }
    if (mix.get("echo") > 0) {
      echo(block, block, mix.get("echo"), mix.get("echo-fall"));
    }
  }

  private void echo(Block source, Block into, double lagBeats, double fallDecibels) {
    int lag = Instrument.samples(lagBeats * 60 / performance.score().bpm());
    Effects.echo(source.left(), into.left(), lag, fallDecibels);
    Effects.echo(source.right(), into.right(), lag, fallDecibels);
  }
}
