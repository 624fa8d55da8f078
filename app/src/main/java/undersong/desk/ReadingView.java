package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import undersong.exchange.SectionNames;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Candidate;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.reading.Tuning;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.TypedChord;
import undersong.work.Trouble;

/** A reading as the page shows it, worded for one reader. */
final class ReadingView {
  private final Reading reading;
  private final Wording wording;
  private final Placing placing;
  private final Keys keys;

  ReadingView(Reading reading, Wording wording) {
    this.reading = reading;
    this.wording = wording;
    this.placing = new Placing(reading, wording);
    this.keys = reading.find(Facet.KEYS).orElse(new Keys(List.of()));
  }

  /** Everything but the pitch curve, which is long. */
  void addTo(PageParts page) {
    page.put("facts", this::facts);
    page.put("beats", this::beats);
    page.put("bars", this::bars);
    page.put("sections", this::sections);
    page.put("keys", () -> Json.array(keys.regions(), this::key));
    page.put("chords", this::chords);
    page.put(
        "bass", () -> placing.notes(reading.find(Facet.BASS).map(Bass::notes).orElse(List.of())));
    page.put(
        "melody",
        () -> placing.notes(reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of())));
    new PartsView(placing).addTo(page, reading);
    new RepeatsView(placing).addTo(page, reading);
    SoundView.addTo(page, reading);
  }

  /** The lead's pitch as it was heard. */
  ObjectNode curve() {
    List<PitchStretch> curve = reading.find(Facet.MELODY).map(Melody::curve).orElse(List.of());
    ObjectNode node = Json.object();
    node.set("stretches", Json.array(curve, ReadingView::stretch));
    return node;
  }

  private static ObjectNode stretch(PitchStretch stretch) {
    ObjectNode node =
        Json.object()
            .put("startSeconds", Json.rounded(stretch.startSeconds()))
            .put("stepSeconds", stretch.stepSeconds());
    ArrayNode pitches = node.putArray("midiPitches");
    stretch.midiPitches().forEach(pitch -> pitches.add(Math.round(pitch * 100) / 100.0));
    return node;
  }

  private ObjectNode facts() {
    ObjectNode facts = Json.object();
    reading.find(Facet.BEATS).ifPresent(beats -> add(beats, facts));
    reading.find(Facet.METER).ifPresent(meter -> add(meter, facts));
    reading.find(Facet.TUNING).ifPresent(tuning -> add(tuning, facts));
    facts.put(
        "keys",
        keys.regions().stream()
            .map(region -> wording.key(region.key()))
            .collect(Collectors.joining(", then ")));
    reading.find(Facet.DYNAMICS).ifPresent(dynamics -> add(dynamics, facts));
    return facts;
  }

  private static void add(Beats beats, ObjectNode facts) {
    facts.put("tempoBpm", beats.grid().isEmpty() ? 0 : beats.grid().medianBpm());
    facts.put("tatumsPerBeat", beats.tatumsPerBeat());
    facts.put("swingRatio", Json.share(beats.swingRatio()));
    facts.put("tempoProbability", Json.share(beats.probability()));
    facts.set(
        "otherTempi",
        Json.array(
            beats.otherTempi(),
            other ->
                Json.object()
                    .put("bpm", other.value())
                    .put("probability", Json.share(other.probability()))));
  }

  private static void add(Meter meter, ObjectNode facts) {
    facts.put("meter", meter.bars().isEmpty() ? "" : meter.mainSignature().toString());
    facts.put("meterProbability", Json.share(meter.probability()));
    facts.set(
        "otherMeters",
        Json.array(
            meter.otherSignatures(),
            other ->
                Json.object()
                    .put("meter", other.value().toString())
                    .put("probability", Json.share(other.probability()))));
  }

  private static void add(Tuning tuning, ObjectNode facts) {
    facts.put("tuningCents", tuning.cents());
    facts.put("a4Hertz", Json.share(440 * Math.pow(2, tuning.cents() / 1200)));
    facts.put("tuningProbability", Json.share(tuning.probability()));
  }

  private static void add(Dynamics dynamics, ObjectNode facts) {
    facts.put("integratedLufs", Json.share(dynamics.integratedLufs()));
    facts.put("rangeLu", Json.share(dynamics.rangeLu()));
  }

  private ArrayNode beats() {
    double[] grid = placing.grid().toArray();
    ArrayNode beats = JsonNodeFactory.instance.arrayNode(grid.length);
    for (double seconds : grid) {
      beats.add(Json.rounded(seconds));
    }
    return beats;
  }

  private ArrayNode bars() {
    List<Double> lufs = reading.find(Facet.DYNAMICS).map(Dynamics::barLufs).orElse(List.of());
    List<Double> onsets =
        reading.find(Facet.DYNAMICS).map(Dynamics::onsetsPerBeat).orElse(List.of());
    ArrayNode nodes = JsonNodeFactory.instance.arrayNode();
    List<Bar> bars = reading.find(Facet.METER).map(Meter::bars).orElse(List.of());
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      ObjectNode node =
          Json.over(bar.span())
              .put("number", bar.number())
              .put("firstBeat", bar.firstBeat())
              .put("beats", bar.beats())
              .put("signature", bar.signature().toString());
      if (i < lufs.size()) {
        node.put("lufs", Json.share(lufs.get(i)));
      }
      if (i < onsets.size()) {
        node.put("onsetsPerBeat", Json.share(onsets.get(i)));
      }
      nodes.add(node);
    }
    return nodes;
  }

  private ArrayNode sections() {
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    List<Roles.NamedSection> roles =
        reading.find(Facet.ROLES).map(Roles::sections).orElse(List.of());
    List<String> titles = SectionNames.titles(reading);
    ArrayNode nodes = JsonNodeFactory.instance.arrayNode();
    for (int i = 0; i < sections.size(); i++) {
      Section section = sections.get(i);
      ObjectNode node =
          Json.over(section.span())
              .put("firstBar", section.firstBar())
              .put("lastBar", section.lastBar())
              .put("letter", section.letter())
              .put("occurrence", section.occurrence())
              .put("transposedSemitones", section.transposedSemitones())
              .put("probability", Json.share(section.probability()))
              .put("name", titles.get(i));
      roles.stream()
          .filter(role -> role.span().contains(section.span().middleSeconds()))
          .findFirst()
          .ifPresent(
              role ->
                  node.put("place", role.place().words())
                      .put("function", role.function().words())
                      .put("roleProbability", Json.share(role.probability())));
      nodes.add(node);
    }
    return nodes;
  }

  private ObjectNode key(KeyRegion region) {
    ObjectNode node =
        Json.over(region.span())
            .put("key", region.key().toString())
            .put("label", wording.key(region.key()))
            .put("probability", Json.share(region.probability()));
    node.set("runnersUp", Json.array(region.runnersUp(), this::key));
    return node;
  }

  private ObjectNode key(Candidate<Key> other) {
    return Json.object()
        .put("key", other.value().toString())
        .put("label", wording.key(other.value()))
        .put("probability", Json.share(other.probability()));
  }

  private ArrayNode chords() {
    List<HarmonyEvent> events = reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of());
    ArrayNode nodes = JsonNodeFactory.instance.arrayNode();
    int next = 0;
    for (ChordSpan chord : reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of())) {
      double middle = chord.span().middleSeconds();
      while (next < events.size() && events.get(next).span().endSeconds() <= middle) {
        next++;
      }
      Optional<HarmonyEvent> event =
          next < events.size() && events.get(next).span().contains(middle)
              ? Optional.of(events.get(next))
              : Optional.empty();
      nodes.add(chord(chord, event));
    }
    return nodes;
  }

  private ObjectNode chord(ChordSpan chord, Optional<HarmonyEvent> event) {
    Key key =
        event.map(HarmonyEvent::key).orElseGet(() -> placing.keyAt(chord.span().middleSeconds()));
    ObjectNode node = placing.chord(chord.symbol(), key, placing.over(chord.span()));
    if (chord.symbol() instanceof Chord named) {
      ArrayNode notes = node.putArray("notes");
      wording.notes(named, key).forEach(notes::add);
      node.set("third", member(chord.third()));
      node.set("fifth", member(chord.fifth()));
      node.set("seventh", member(chord.seventh()));
    }
    event.ifPresent(
        heard -> {
          heard.numeral().ifPresent(n -> node.put("numeral", wording.numeral(n, key)));
          node.put("function", heard.function().name().toLowerCase(Locale.ROOT));
          node.put("borrowed", heard.borrowed());
          node.put("arrivalBeats", Json.share(heard.arrivalBeats()));
          node.put("numeralProbability", Json.share(heard.probability()));
        });
    node.put("probability", Json.share(chord.probability()));
    node.put("open", chord.probability() < Placing.OPEN_BELOW);
    node.set("runnersUp", Json.array(chord.runnersUp(), other -> runnerUp(other, key)));
    chord
        .besides()
        .ifPresent(other -> node.set("besides", placing.chord(other, key, Json.object())));
    return node;
  }

  private ObjectNode runnerUp(Candidate<ChordSymbol> other, Key key) {
    ObjectNode node = placing.chord(other.value(), key, Json.object());
    wording.numeral(other.value(), key).ifPresent(numeral -> node.put("numeral", numeral));
    return node.put("probability", Json.share(other.probability()));
  }

  /** What was typed, as it is understood; throws {@link Trouble.WrongUsage} where it is not. */
  static ObjectNode typed(String text, Wording wording) {
    try {
      ChordSymbol symbol = TypedChord.parse(text);
      return Json.object()
          .put("harte", HarteSyntax.print(symbol))
          .put("label", wording.chord(symbol, CorrectionWords.NO_KEY));
    } catch (IllegalArgumentException misspelled) {
      throw new Trouble.WrongUsage(String.valueOf(misspelled.getMessage()));
    }
  }

  private static ObjectNode member(Member member) {
    return Json.object()
        .put("accompaniment", member.accompaniment().name().toLowerCase(Locale.ROOT))
        .put("voices", member.voices().name().toLowerCase(Locale.ROOT))
        .put("impliedBy", member.impliedBy());
  }
}
