package undersong.study;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import undersong.audio.ExcerptEncoder;
import undersong.exchange.MidiWriter;
import undersong.exchange.MusicXmlWriter;
import undersong.exchange.SongFacts;
import undersong.feature.FrameSeries;
import undersong.lesson.Lesson;
import undersong.lesson.LessonChange;
import undersong.lesson.LessonItem;
import undersong.lesson.LessonJson;
import undersong.lesson.LessonPage;
import undersong.lesson.LessonPlan;
import undersong.lesson.RunningOrder;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillKind;
import undersong.lesson.drill.DrillMaker;
import undersong.lesson.drill.DrillSource;
import undersong.lesson.sketch.Sketch;
import undersong.lesson.sketch.SketchMaker;
import undersong.lesson.sketch.SketchWords;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.WrittenScore;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.render.DemoRenderer;
import undersong.render.WavFile;
import undersong.shelf.Remark;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.shelf.StoredLesson;
import undersong.technique.BarRange;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/** The lessons on the songs of a shelf: drafted, kept, and written out. */
public final class LessonBook {
  private static final Texts TEXTS = Texts.in(Locale.ENGLISH);

  /** Steps of the page's level curve: a third of a decibel from -80 LUFS up. */
  private static final double LOWEST_LUFS = -80;

  private static final double STEPS_PER_DB = 3;

  /** Exercises of each kind and level on a page. */
  private static final int DRILLS_EACH = 6;

  /** How much is played of a moment that lies in no bar. */
  private static final double MOMENT_SECONDS = 2;

  private final Study study;
  private final Shelf shelf;
  private final CurrentReadings readings;
  private final InstantSource clock;

  LessonBook(Study study, Shelf shelf, CurrentReadings readings, InstantSource clock) {
    this.study = study;
    this.shelf = shelf;
    this.readings = readings;
    this.clock = clock;
  }

  /** A first draft from what ranks highest; not kept yet. */
  public Lesson draft(long songId, int howMany, NotationSettings settings) {
    Studied studied = study.reading(songId);
    return LessonPlan.draft(
        songId,
        studied.song().title(),
        studied.stored().revision(),
        study.ranked(songId),
        howMany,
        settings,
        TEXTS);
  }

  /**
   * The remarks on a song as items of a lesson, by place; one about a moment is shown by its bar.
   */
  public List<LessonItem> remarks(long songId) {
    Meter meter = study.reading(songId).stored().reading().get(Facet.METER);
    return study.notebook().remarks(songId).stream()
        .map(
            remark -> {
              Span span = place(remark, meter);
              return LessonPlan.remark(span, remark.words(), BarRange.of(meter, span));
            })
        .toList();
  }

  /** All that can stand in a lesson on a song, each as an item: every finding, then the remarks. */
  public List<LessonItem> offers(long songId) {
    List<LessonItem> offers = new ArrayList<>();
    study.ranked(songId).stream()
        .map(one -> LessonPlan.item(one.group().telling(), TEXTS))
        .forEach(offers::add);
    offers.addAll(remarks(songId));
    return offers;
  }

  private static Span place(Remark remark, Meter meter) {
    double start = remark.startSeconds();
    if (remark.endSeconds().isPresent()) {
      return new Span(start, remark.endSeconds().getAsDouble());
    }
    return meter.bars().stream()
        .map(Bar::span)
        .filter(bar -> bar.startSeconds() <= start && start < bar.endSeconds())
        .findFirst()
        .orElse(new Span(start, start + MOMENT_SECONDS));
  }

  /** Lessons kept on a song, oldest first. */
  public List<StoredLesson> of(long songId) {
    return shelf.lessons().of(shelf.songs().get(songId).id());
  }

  /** One lesson as it was saved last; throws {@link Trouble.NotOnShelf}. */
  public StoredLesson get(long lessonId) {
    return shelf.lessons().get(lessonId).orElseThrow(() -> none(lessonId));
  }

  public StoredLesson add(Lesson lesson, String author) {
    long songId = shelf.songs().get(lesson.songId()).id();
    return shelf.lessons().add(songId, author, clock.instant(), LessonJson.text(lesson));
  }

  /**
   * Saves a new version. Where somebody saved another meanwhile, neither is lost: this one becomes
   * a lesson of its own and names the other in {@link StoredLesson#beside}.
   *
   * @param seenVersion the one the author had before them
   */
  public StoredLesson save(long lessonId, int seenVersion, Lesson lesson, String author) {
    return shelf
        .lessons()
        .save(lessonId, seenVersion, author, clock.instant(), LessonJson.text(lesson))
        .orElseThrow(() -> none(lessonId));
  }

  public void takeAway(long lessonId) {
    if (!shelf.lessons().withdraw(lessonId)) {
      throw none(lessonId);
    }
  }

  /** What the reading says otherwise than when the lesson's items were chosen. */
  public List<LessonChange> changes(Lesson lesson) {
    return LessonChange.of(lesson, study.findings(lesson.songId()), TEXTS);
  }

  /**
   * Exercises on a song and on techniques found in it: the same number of every kind and level.
   *
   * @param kinds empty for those that suit the techniques
   * @param seed equal seeds make equal exercises
   */
  public List<Drill> drills(Lesson lesson, Set<DrillKind> kinds, int each, long seed) {
    Reading reading = study.reading(lesson.songId()).stored().reading();
    List<Technique> techniques =
        lesson.items().stream().flatMap(item -> item.technique().stream()).toList();
    DrillSource source =
        DrillSource.of(reading, lesson.items().stream().map(LessonItem::span).toList());
    return DrillMaker.set(kinds.isEmpty() ? DrillKind.of(techniques) : kinds, each, seed, source);
  }

  /** Exercises alone, as one HTML page. */
  public String drillPage(Lesson lesson, List<Drill> drills) {
    return page(lesson.withItems(List.of()), drills);
  }

  /** The lesson as one HTML page, with exercises. */
  public String page(Lesson lesson) {
    return page(lesson, drills(lesson, Set.of(), DRILLS_EACH, lesson.songId()));
  }

  private String page(Lesson lesson, List<Drill> drills) {
    Studied studied = study.reading(lesson.songId());
    Song song = studied.song();
    LessonPage.Material material =
        new LessonPage.Material(
            song.title(),
            song.artist().orElse(""),
            studied.stored().reading(),
            study.findings(song.id()),
            levels(song),
            excerpts(lesson, song),
            drills,
            resource("lesson.js"),
            resource("lesson.css"));
    return LessonPage.print(lesson, material, TEXTS);
  }

  /**
   * A new piece that uses a technique.
   *
   * @param besideSong a song it must not quote; empty for none
   * @param seed equal seeds make equal sketches
   */
  public Sketch sketch(Technique technique, long seed, OptionalLong besideSong) {
    Optional<Reading> beside =
        besideSong.isEmpty()
            ? Optional.empty()
            : Optional.of(study.reading(besideSong.getAsLong()).stored().reading());
    try {
      return SketchMaker.make(technique, seed, beside);
    } catch (IllegalArgumentException unknown) {
      throw new Trouble.WrongUsage(unknown.getMessage());
    }
  }

  /** What a sketch is written out as: what it does, notation, notes, sound. */
  public static final List<String> SKETCH_FILES =
      List.of("sketch.txt", "sketch.musicxml", "sketch.mid", "sketch.wav");

  /** A sketch written out, by file name. */
  public Map<String, byte[]> files(Sketch sketch) {
    Map<String, byte[]> files = new LinkedHashMap<>();
    SKETCH_FILES.forEach(name -> files.put(name, file(sketch, name)));
    return files;
  }

  /**
   * One file of a sketch. Sound takes about a second, the others milliseconds.
   *
   * @param name one of {@link #SKETCH_FILES}; throws {@link Trouble.NotOnShelf} on another
   */
  public byte[] file(Sketch sketch, String name) {
    SongFacts facts = new SongFacts(sketch.song().title(), "", "", "");
    return switch (name) {
      case "sketch.txt" -> SketchWords.print(sketch, TEXTS).getBytes(StandardCharsets.UTF_8);
      case "sketch.musicxml" ->
          MusicXmlWriter.print(Notator.write(sketch.reading(), NotationSettings.DEFAULTS), facts)
              .getBytes(StandardCharsets.UTF_8);
      case "sketch.mid" -> MidiWriter.print(sketch.reading(), facts);
      case "sketch.wav" -> WavFile.bytes(DemoRenderer.render(sketch.song()));
      default ->
          throw new Trouble.NotOnShelf(
              "A sketch has no file \"%s\"; it has %s.".formatted(name, SKETCH_FILES));
    };
  }

  /**
   * Everything a lesson is written out as, by file name: the page, what to speak from, notation.
   */
  public Map<String, byte[]> files(Lesson lesson) {
    Studied studied = study.reading(lesson.songId());
    Song song = studied.song();
    Reading reading = studied.stored().reading();
    SongFacts facts =
        new SongFacts(
            song.title(),
            song.artist().orElse(""),
            song.year().map(String::valueOf).orElse(""),
            song.contentHash());
    Map<String, byte[]> files = new LinkedHashMap<>();
    put(files, "lesson.html", page(lesson));
    put(files, "running-order.txt", RunningOrder.print(lesson));
    put(files, "techniques.txt", RunningOrder.techniques(lesson, TEXTS));
    put(files, "chapters.txt", RunningOrder.chapters(lesson));
    put(files, "chapters.vtt", RunningOrder.webVtt(lesson));
    WrittenScore score = Notator.write(reading, lesson.settings());
    if (!score.parts().isEmpty()) {
      put(files, "song.musicxml", MusicXmlWriter.print(score, facts));
    }
    files.put("song.mid", MidiWriter.print(reading, facts));
    return files;
  }

  private static void put(Map<String, byte[]> files, String name, String text) {
    files.put(name, text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Loudness by which a student's own copy is known; "" where the recording was never measured
   * here.
   */
  private String levels(Song song) {
    FrameSeries lufs;
    try {
      lufs = readings.features(song).loudness().momentaryLufs();
    } catch (Trouble.UnreadableRecording gone) {
      return "";
    }
    byte[] steps = new byte[lufs.frames()];
    for (int i = 0; i < steps.length; i++) {
      double step = STEPS_PER_DB * (lufs.at(i) - LOWEST_LUFS);
      steps[i] = (byte) Math.round(Math.max(0, Math.min(255, step)));
    }
    return Base64.getEncoder().encodeToString(steps);
  }

  private List<Optional<LessonPage.Excerpt>> excerpts(Lesson lesson, Song song) {
    List<Optional<LessonPage.Excerpt>> excerpts = new ArrayList<>();
    for (LessonItem item : lesson.items()) {
      if (item.excerpt()) {
        byte[] sound =
            ExcerptEncoder.encode(
                readings.recording(song),
                Renderings.insideOf(song, item.span()),
                new Cancellation());
        excerpts.add(
            Optional.of(
                new LessonPage.Excerpt(
                    ExcerptEncoder.MEDIA_TYPE,
                    item.span().lengthSeconds(),
                    Base64.getEncoder().encodeToString(sound))));
      } else {
        excerpts.add(Optional.empty());
      }
    }
    return excerpts;
  }

  private static String resource(String name) {
    try (InputStream stream =
        LessonBook.class.getResourceAsStream("/undersong/desk/page/lesson/" + name)) {
      if (stream == null) {
        throw new Trouble.WrongUsage(
            "The page of a lesson needs %s, which was left out of this build. Maybe Node 20 was missing when the program was built."
                .formatted(name));
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  private static Trouble.NotOnShelf none(long lessonId) {
    return new Trouble.NotOnShelf(
        "There is no lesson %d on this shelf. Maybe it was taken away.".formatted(lessonId));
  }
}
