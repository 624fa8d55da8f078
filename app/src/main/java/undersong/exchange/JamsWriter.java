package undersong.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.reading.Tuning;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.NoteName;
import undersong.theory.SpelledPitch;
import undersong.time.Span;

/**
 * Writes a reading as JAMS, the open JSON Annotated Music Specification: one annotation per
 * namespace, except notes, one per part. Every row carries the probability of its value as {@code
 * confidence}. What JAMS has no field for stands in the sandboxes, in the order of the rows: {@code
 * minorForm} beside keys, {@code letter} beside sections, {@code signatures} beside beats.
 *
 * <p>Source: E. J. Humphrey, J. Salamon, O. Nieto, J. Forsyth, R. M. Bittner, J. P. Bello, "JAMS: A
 * JSON Annotated Music Specification for Reproducible MIR Research", ISMIR 2014, and the schema of
 * version 0.3 (from memory).
 */
public final class JamsWriter {
  static final String JAMS_VERSION = "0.3.4";
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double CONTOUR_HOP_SECONDS = 0.01;

  private final Reading reading;
  private final double tuningSemitones;
  private final ObjectNode root = JSON.createObjectNode();
  private final ArrayNode annotations = JSON.createArrayNode();

  private JamsWriter(Reading reading) {
    this.reading = reading;
    this.tuningSemitones = reading.find(Facet.TUNING).map(Tuning::cents).orElse(0.0) / 100;
  }

  /** The reading as the text of a JAMS file. Facets that were not derived are left out. */
  public static String print(Reading reading, SongFacts facts) {
    ObjectNode root = new JamsWriter(reading).document(facts);
    try {
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new AssertionError("A tree of plain values can always be written.", impossible);
    }
  }

  private ObjectNode document(SongFacts facts) {
    reading.find(Facet.BEATS).ifPresent(this::beatsAndTempo);
    reading.find(Facet.KEYS).ifPresent(this::keys);
    reading.find(Facet.CHORDS).ifPresent(this::chords);
    reading.find(Facet.FORM).ifPresent(this::sections);
    reading.find(Facet.BASS).map(Bass::notes).ifPresent(notes -> notes(PartName.BASS, notes));
    reading.find(Facet.MELODY).map(Melody::notes).ifPresent(notes -> notes(PartName.MELODY, notes));
    reading
        .find(Facet.VOICES)
        .ifPresent(heard -> heard.voices().forEach(v -> notes(v.name(), v.events())));
    reading
        .find(Facet.LINES)
        .ifPresent(heard -> heard.lines().forEach(line -> notes(line.name(), line.notes())));
    reading.find(Facet.MELODY).ifPresent(this::contour);
    root.set("annotations", annotations);
    ObjectNode file = root.putObject("file_metadata");
    file.put("title", facts.title());
    file.put("artist", facts.artist());
    file.put("release", facts.year());
    file.put("duration", micro(reading.durationSeconds()));
    file.putObject("identifiers");
    file.put("jams_version", JAMS_VERSION);
    ObjectNode sandbox = root.putObject("sandbox");
    reading.find(Facet.TUNING).ifPresent(tuning -> sandbox.put("tuningCents", tuning.cents()));
    if (!facts.contentHash().isBlank()) {
      sandbox.put("contentHash", facts.contentHash());
    }
    return root;
  }

  private ObjectNode annotation(String namespace, String rule) {
    ObjectNode annotation = annotations.addObject();
    annotation.put("namespace", namespace);
    ObjectNode metadata = annotation.putObject("annotation_metadata");
    metadata.putObject("curator").put("name", "").put("email", "");
    metadata.putObject("annotator");
    metadata.put("version", "1");
    metadata.put("corpus", "");
    metadata.put("annotation_tools", "Undersong");
    metadata.put("annotation_rules", rule);
    metadata.put("validation", "");
    metadata.put("data_source", "program");
    annotation.putArray("data");
    annotation.putObject("sandbox");
    annotation.put("time", 0.0);
    annotation.put("duration", micro(reading.durationSeconds()));
    return annotation;
  }

  private static ObjectNode row(ObjectNode annotation, Span span, double confidence) {
    return row(annotation, span.startSeconds(), span.lengthSeconds(), confidence);
  }

  private static ObjectNode row(
      ObjectNode annotation, double time, double duration, double confidence) {
    ObjectNode row = ((ArrayNode) annotation.get("data")).addObject();
    row.put("time", micro(time));
    row.put("duration", micro(duration));
    row.put("confidence", confidence);
    return row;
  }

  private void beatsAndTempo(Beats beats) {
    BarCounts counts = BarCounts.of(reading);
    Optional<Meter> meter = reading.find(Facet.METER);
    ObjectNode annotation =
        annotation("beat", "Value 1 is a downbeat; in compound meter a beat is a dotted quarter.");
    for (int beat = 0; beat < beats.grid().size(); beat++) {
      ObjectNode row = row(annotation, beats.grid().secondsAt(beat), 0, beats.probability());
      Optional<Integer> number = counts.numberInBar(beat);
      row.put("value", number.orElse(null));
    }
    ArrayNode signatures = ((ObjectNode) annotation.get("sandbox")).putArray("signatures");
    meter.ifPresent(m -> signatures(m, signatures));
    if (!beats.grid().isEmpty()) {
      ObjectNode tempo = annotation("tempo", "Median tempo of the song in beats per minute.");
      row(tempo, 0, reading.durationSeconds(), beats.probability())
          .put("value", beats.grid().medianBpm());
    }
  }

  private static void signatures(Meter meter, ArrayNode signatures) {
    String before = "";
    for (var bar : meter.bars()) {
      if (!bar.signature().toString().equals(before)) {
        before = bar.signature().toString();
        signatures
            .addObject()
            .put("time", micro(bar.span().startSeconds()))
            .put("signature", before);
      }
    }
  }

  private void keys(Keys keys) {
    ObjectNode annotation = annotation("key_mode", "Tonic and mode by region.");
    ArrayNode forms = ((ObjectNode) annotation.get("sandbox")).putArray("minorForm");
    for (KeyRegion region : keys.regions()) {
      row(annotation, region.span(), region.probability()).put("value", key(region.key()));
      switch (region.key().mode()) {
        case NATURAL_MINOR -> forms.add("natural");
        case HARMONIC_MINOR -> forms.add("harmonic");
        case MELODIC_MINOR -> forms.add("melodic");
        default -> forms.addNull();
      }
    }
  }

  /** JAMS allows a tonic one accidental. */
  private static String key(Key key) {
    NoteName tonic = key.tonic();
    NoteName plain =
        Math.abs(tonic.accidental()) <= 1 ? tonic : NoteName.ofPitchClass(tonic.pitchClass(), 0);
    return plain + ":" + (key.mode().isMinor() ? "minor" : key.mode().words());
  }

  private void chords(Chords chords) {
    ObjectNode annotation = annotation("chord", "Harte's grammar; the bass as a degree.");
    for (ChordSpan chord : chords.spans()) {
      row(annotation, chord.span(), chord.probability())
          .put("value", HarteSyntax.print(chord.symbol()));
    }
  }

  private void sections(Form form) {
    List<SectionRole> roles = SectionNames.roles(reading);
    List<Roles.NamedSection> named =
        reading.find(Facet.ROLES).map(Roles::sections).orElse(List.of());
    ObjectNode annotation = annotation("segment_open", "Value is what a section does.");
    ArrayNode letters = ((ObjectNode) annotation.get("sandbox")).putArray("letter");
    for (int i = 0; i < form.sections().size(); i++) {
      Section section = form.sections().get(i);
      double confidence =
          named.stream()
              .filter(n -> n.span().contains(section.span().middleSeconds()))
              .findFirst()
              .map(Roles.NamedSection::probability)
              .orElse(section.probability());
      row(annotation, section.span(), confidence).put("value", roles.get(i).words());
      letters.add(section.letter());
    }
  }

  private void notes(String part, List<NoteEvent> notes) {
    ObjectNode annotation =
        annotation("note_midi", "Fractional MIDI number at A4 = 440 Hz, the tuning included.");
    ((ObjectNode) annotation.get("sandbox")).put("part", part);
    for (NoteEvent note : notes) {
      row(annotation, note.span(), note.probability())
          .put("value", micro(note.midiPitch() + tuningSemitones));
    }
  }

  /**
   * The curve as heard, with the pitch that was followed through rests as not voiced; a tune known
   * by its notes only is written as one even pitch a note.
   */
  private void contour(Melody melody) {
    boolean heard = !melody.curve().isEmpty();
    ObjectNode annotation =
        annotation(
            "pitch_contour",
            heard
                ? "Pitch as heard, in hertz; index counts stretches without a break. Not voiced:"
                    + " the pitch the tune would have where it rests."
                : "One even pitch in hertz for the length of each note; index counts notes.");
    ((ObjectNode) annotation.get("sandbox")).put("part", PartName.MELODY);
    ObjectNode columns = annotation.putObject("data");
    List.of("time", "duration", "value", "confidence").forEach(columns::putArray);
    List<PitchStretch> stretches =
        heard
            ? Stream.concat(melody.curve().stream(), melody.unsure().stream())
                .sorted(Comparator.comparingDouble(PitchStretch::startSeconds))
                .toList()
            : melody.notes().stream().map(this::evenStretch).toList();
    Set<PitchStretch> unsure = Set.copyOf(melody.unsure());
    for (int index = 0; index < stretches.size(); index++) {
      PitchStretch stretch = stretches.get(index);
      for (int i = 0; i < stretch.midiPitches().size(); i++) {
        double time = stretch.startSeconds() + i * stretch.stepSeconds();
        columns.withArray("time").add(micro(time));
        columns.withArray("duration").add(0.0);
        columns
            .withArray("value")
            .addObject()
            .put("index", index)
            .put("frequency", micro(SpelledPitch.hertz(stretch.midiPitches().get(i))))
            .put("voiced", !unsure.contains(stretch));
        columns.withArray("confidence").add(confidenceAt(melody.notes(), time));
      }
    }
  }

  private PitchStretch evenStretch(NoteEvent note) {
    int steps = (int) Math.ceil(note.span().lengthSeconds() / CONTOUR_HOP_SECONDS);
    double midiPitch = note.midiPitch() + tuningSemitones;
    return new PitchStretch(
        note.span().startSeconds(), CONTOUR_HOP_SECONDS, Collections.nCopies(steps, midiPitch));
  }

  /** That of the note that sounds; null, as JAMS allows, where the curve makes no note. */
  private static Double confidenceAt(List<NoteEvent> notes, double seconds) {
    return notes.stream()
        .filter(note -> note.span().contains(seconds))
        .findFirst()
        .map(NoteEvent::probability)
        .orElse(null);
  }

  /** Rounded to a millionth, to keep files readable. */
  private static double micro(double number) {
    return Math.round(number * 1e6) / 1e6;
  }
}
