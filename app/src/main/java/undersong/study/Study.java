package undersong.study;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.reading.Correction;
import undersong.shelf.ChangedSongs;
import undersong.shelf.Origin;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfEntry;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Song;
import undersong.shelf.SongWording;
import undersong.shelf.Step;
import undersong.shelf.StoredReading;
import undersong.shelf.StudiedFile;
import undersong.shelf.Verdict;
import undersong.technique.Arc;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

/**
 * The whole path, from a file to a reading on the shelf, and the one door for corrections.
 *
 * <p>Safe for several threads; work on one song waits for other work on the same song. Several
 * programs may study on one shelf: what another program said is heeded at the next look.
 */
public final class Study implements AutoCloseable {
  private final Shelf shelf;
  private final FeatureSource source;
  private final CurrentReadings readings;
  private final CurrentFindings findings;
  private final Renderings renderings;
  private final ShelfTrends trends;
  private final InstantSource clock;
  private final Speaker speaker;
  private final Map<String, Object> locks = new ConcurrentHashMap<>();

  Study(
      Shelf shelf,
      FeatureSource source,
      Estimators estimators,
      Renderings renderings,
      InstantSource clock) {
    this.shelf = shelf;
    this.source = source;
    this.readings = new CurrentReadings(shelf, source, estimators);
    this.findings = new CurrentFindings(shelf);
    this.renderings = renderings;
    this.trends = new ShelfTrends(shelf, findings);
    this.clock = clock;
    this.speaker = new Speaker(shelf.place().folder());
  }

  /**
   * Studies on the shelf in this file; a new one is laid out where there is none. What was measured
   * is kept in a folder {@code features} beside it.
   */
  public static Study on(Path shelfFile) {
    return on(ShelfPlace.ofFile(shelfFile));
  }

  /**
   * Studies on a shelf wherever it lies; what was measured is kept in this machine's folder of it.
   */
  public static Study on(ShelfPlace place) {
    return on(place, Estimators.standard());
  }

  /** As {@link #on(Path)}, with facets derived by others than the standard estimators. */
  public static Study on(Path shelfFile, Estimators estimators) {
    return on(ShelfPlace.ofFile(shelfFile), estimators);
  }

  private static Study on(ShelfPlace place, Estimators estimators) {
    Shelf shelf = Shelf.open(place);
    FeatureSource source = new RecordedFeatures(place.folder().resolve("features"));
    InstantSource clock = InstantSource.system();
    Renderings renderings = new Renderings(place.folder().resolve("renderings"), clock);
    return new Study(shelf, source, estimators, renderings, clock);
  }

  /** Where the shelf lies. */
  public ShelfPlace place() {
    return shelf.place();
  }

  /** Whose word it is that is kept where no other name is said. */
  public Speaker speaker() {
    return speaker;
  }

  /** Studies a recording: measures its sound, hears what is in it, puts it on the shelf. */
  public Studied study(Path file) {
    return study(file, Song.Words.NONE, Progress.SILENT, new Cancellation());
  }

  /**
   * As {@link #study(Path)}. Sound that is on the shelf already is the same song, whatever the file
   * is called now, and what was said of it holds.
   *
   * @param said title, artist and year in the listener's words
   */
  public Studied study(Path file, Song.Words said, Progress progress, Cancellation cancellation) {
    Recording recording = source.probe(file, cancellation);
    synchronized (lock(recording.contentHash())) {
      Features features = source.features(recording, progress, cancellation);
      return readings.studied(facts(recording, said), features, progress, cancellation);
    }
  }

  /**
   * Copies a recording beside the shelf, for whoever asks for it: the copy, to be studied in its
   * place. The same sound is copied once.
   */
  public Path copied(Path file, Cancellation cancellation) {
    return new OwnCopies(shelf.place().folder().resolve("copies"))
        .of(source.probe(file, cancellation));
  }

  /**
   * Puts on the shelf what was studied elsewhere; false where the song is there already, with a
   * reading of the same versions or with corrections, and stays as it is.
   */
  public boolean keep(Heard heard) {
    synchronized (lock(heard.facts().contentHash())) {
      return readings.kept(heard);
    }
  }

  /**
   * A song and its reading as it stands. Where the reading is stale and the recording is gone, the
   * stale one is better than none.
   */
  public Studied reading(long songId) {
    return reading(songId, Progress.SILENT);
  }

  /**
   * As {@link #reading(long)}.
   *
   * @param progress told what is measured and heard anew, if anything is: that takes its time
   */
  public Studied reading(long songId, Progress progress) {
    Song song = shelf.songs().get(songId);
    synchronized (lock(song.contentHash())) {
      try {
        return new Studied(song, readings.of(song, progress));
      } catch (Trouble.UnreadableRecording gone) {
        return new Studied(song, readings.latest(song).orElseThrow(() -> gone));
      }
    }
  }

  /** Every technique found in a song as its reading stands, by start; doubtful ones too. */
  public List<Finding> findings(long songId) {
    return findings.of(reading(songId).stored());
  }

  /**
   * The findings of a song, the most worth a lesson first: joined by section, without those that
   * somebody said no to and nobody yes.
   */
  public List<Ranking.Ranked> ranked(long songId) {
    List<Verdict> said = shelf.verdicts().of(songId);
    List<Finding> standing =
        findings(songId).stream()
            .filter(
                finding ->
                    isSaid(said, finding, Verdict.Answer.YES)
                        || !isSaid(said, finding, Verdict.Answer.NO))
            .toList();
    return findings.ranking().rank(standing);
  }

  private static boolean isSaid(List<Verdict> said, Finding finding, Verdict.Answer answer) {
    return said.stream().anyMatch(one -> one.answer() == answer && one.isOn(finding));
  }

  /** The song as a drama: each section against the others, the climax, what follows it. */
  public Arc arc(long songId) {
    return Arc.of(reading(songId).stored().reading());
  }

  /** The one door for what the listener says against a reading; in the speaker's name. */
  public Answer correct(long songId, Correction correction) {
    return correct(songId, List.of(correction), speaker.name());
  }

  /**
   * Several corrections said together: one step to take back.
   *
   * @param author who says so
   */
  public Answer correct(long songId, List<Correction> batch, String author) {
    return correct(songId, batch, author, OptionalInt.empty());
  }

  /**
   * As {@link #correct(long, List, String)}, but only while the song stands where the speaker saw
   * it; throws {@link Trouble.MovedOn} where it does not.
   *
   * @param seenRevision of the reading the speaker had before them; empty: whatever it is
   */
  public Answer correct(
      long songId, List<Correction> batch, String author, OptionalInt seenRevision) {
    Song song = shelf.songs().get(songId);
    batch.forEach(correction -> Anchors.requireInside(song, correction));
    return answer(
        song, seenRevision, id -> shelf.corrections().append(id, author, clock.instant(), batch));
  }

  /**
   * Takes back what was said last; throws {@link Trouble.WrongUsage} where nothing is in force. On
   * a shelf that several share, only what the speaker said: others' words are taken back by naming
   * the step.
   */
  public Answer undo(long songId) {
    return undo(songId, OptionalInt.empty());
  }

  /** As {@link #undo(long)}, guarded as {@link #correct(long, List, String, OptionalInt)}. */
  public Answer undo(long songId, OptionalInt seenRevision) {
    return answer(
        shelf.songs().get(songId),
        seenRevision,
        id ->
            StepChecks.requireStep(
                shelf.corrections().undo(id, whoseSteps()), "take back", songId));
  }

  /** Says again what was taken back last; throws {@link Trouble.WrongUsage} if nothing was. */
  public Answer redo(long songId) {
    return redo(songId, OptionalInt.empty());
  }

  /** As {@link #redo(long)}, guarded as {@link #correct(long, List, String, OptionalInt)}. */
  public Answer redo(long songId, OptionalInt seenRevision) {
    return answer(
        shelf.songs().get(songId),
        seenRevision,
        id ->
            StepChecks.requireStep(
                shelf.corrections().redo(id, whoseSteps()), "bring back", songId));
  }

  /** Whether {@link #undo(long)} would come to this step. */
  public boolean isUndone(Step step) {
    return step.inForce() && whoseSteps().map(step.author()::equals).orElse(true);
  }

  private Optional<String> whoseSteps() {
    return shelf.place() instanceof ShelfPlace.Server
        ? Optional.of(speaker.name())
        : Optional.empty();
  }

  /** Takes back one step out of turn. */
  public Answer takeBack(long songId, long stepId) {
    return answer(
        shelf.songs().get(songId),
        OptionalInt.empty(),
        id -> shelf.corrections().takeBack(id, stepId));
  }

  /** Brings back one step out of turn. */
  public Answer bringBack(long songId, long stepId) {
    return answer(
        shelf.songs().get(songId),
        OptionalInt.empty(),
        id -> shelf.corrections().bringBack(id, stepId));
  }

  /** Everything ever said of a song, oldest first. */
  public List<Step> steps(long songId) {
    return shelf.corrections().steps(shelf.songs().get(songId).id());
  }

  /** Whether {@link #redo(long)} has something to say again. */
  public boolean canRedo(long songId) {
    return shelf.corrections().canRedo(shelf.songs().get(songId).id(), whoseSteps());
  }

  /**
   * What was said of one section, offered for the others with the same music where it would change
   * something. Nothing is said until an offer is given to {@link #correct}.
   */
  public List<Offer> offers(long songId, Correction correction) {
    Song song = shelf.songs().get(songId);
    Anchors.requireInside(song, correction);
    Offers.Ground ground = ground(song);
    return new Offers(readings.derivation()).of(correction, ground);
  }

  /**
   * Fetches what corrections of a song are derived from, and goes once through all that one sets
   * going: the answer there would be. Nothing is kept.
   *
   * @param round another correction in every round
   */
  public Optional<Answer> rehearse(long songId, int round) {
    Song song = shelf.songs().get(songId);
    return new Rehearsal(shelf, readings, findings)
        .of(reading(songId).stored(), ground(song), round);
  }

  /** What could be said is weighed outside the lock: nobody's word has to wait for it. */
  private Offers.Ground ground(Song song) {
    synchronized (lock(song.contentHash())) {
      return new Offers.Ground(readings.features(song), readings.basis(readings.of(song)));
    }
  }

  /**
   * The listener's own songs, heard or remembered, that hold each of these words; all of them where
   * there are none.
   */
  public List<ShelfEntry> songs(String query) {
    return songs(query, Set.of(Origin.RECORDING, Origin.MEMORY));
  }

  /** As {@link #songs(String)}, of these origins. */
  public List<ShelfEntry> songs(String query, Set<Origin> origins) {
    return shelf.songs().list(query).stream()
        .filter(entry -> origins.contains(entry.song().origin()))
        .toList();
  }

  /** The whole shelf as JAMS files, out and in. */
  public JamsFolder jams() {
    return new JamsFolder(this, shelf);
  }

  /** Songs of which no recording is at hand: published charts, and what listeners remember. */
  public SongsWithoutSound withoutSound() {
    return new SongsWithoutSound(this, shelf, clock);
  }

  /** The songs' sound, to be played and looked at. */
  public SongSound sound() {
    return new SongSound(
        shelf, readings, renderings, new Contrasts(readings, findings, renderings), this::reading);
  }

  /** What listeners wrote down beside the readings, and what they said of findings. */
  public Notebook notebook() {
    return new Notebook(shelf, clock);
  }

  /**
   * Two songs, or two stretches of songs, side by side.
   *
   * @param first a number, title or file, with {@code @FROM-TO} in seconds for a stretch
   */
  public SongComparison compare(String first, String second) {
    return new SongStretch(this, first).beside(new SongStretch(this, second));
  }

  /** Looks for music on the shelf. */
  public Search search() {
    return new Search(shelf, readings, speaker, clock);
  }

  /** Writes the whole shelf to one new file; recordings and what was measured stay here. */
  public void saveShelf(Path file) {
    shelf.saveTo(file);
  }

  /** Fills this shelf, which must hold no song, from such a file: all of it, or nothing. */
  public void loadShelf(Path file) {
    shelf.loadFrom(file);
  }

  /** Lessons on the songs: drafted, kept, written out. */
  public LessonBook lessons() {
    return new LessonBook(this, shelf, readings, clock);
  }

  /** What the whole shelf shows: how common a thing is, how unusual a song. */
  public ShelfTrends trends() {
    return trends;
  }

  /** A setting of the speaker, as JSON; empty where it was never set. */
  public Optional<String> setting(String name) {
    return shelf.settings().get(speaker.name(), name);
  }

  /** Remembers a setting of the speaker with the shelf. */
  public void set(String name, String json) {
    shelf.settings().put(speaker.name(), name, json);
  }

  /**
   * Begins to bring in recordings, those first that an earlier program left. Close it before this.
   *
   * @param listener told of every step; must return fast
   */
  public BringingIn bringingIn(Consumer<BringingIn.Step> listener) {
    Path folder = shelf.place().folder().resolve("recordings");
    return new BringingIn(this, shelf, folder, clock, listener);
  }

  /** Title, artist and year in the listener's words; what is empty goes back to the file's tags. */
  public Song say(long songId, Song.Words said, String author) {
    shelf.songs().say(shelf.songs().get(songId).id(), said, author, clock.instant());
    return shelf.songs().get(songId);
  }

  /** Everything that was said of a song's title, artist and year, oldest first. */
  public List<SongWording> wordings(long songId) {
    return shelf.songs().wordings(shelf.songs().get(songId).id());
  }

  /** What changed on the shelf after a change, whoever changed it; 0 for everything. */
  public ChangedSongs changedSince(long change) {
    return shelf.songs().changedSince(change);
  }

  /** The last change of a song; empty where it has no reading. */
  public Optional<ChangedSongs.Change> lastChange(long songId) {
    return shelf.songs().lastChange(songId);
  }

  /** The song with this number; throws {@link Trouble.NotOnShelf}. */
  public Song song(long songId) {
    return shelf.songs().get(songId);
  }

  /** The song meant by a number, title or file; throws {@link Trouble.NotOnShelf}. */
  public Song song(String text) {
    return shelf.songs().named(text);
  }

  @Override
  public void close() {
    source.close();
    shelf.close();
  }

  private Answer answer(Song song, OptionalInt seenRevision, LongConsumer say) {
    synchronized (lock(song.contentHash())) {
      // Whatever could refuse an answer does so before the word is kept.
      readings.features(song);
      StoredReading before = readings.of(song);
      StepChecks.requireSeen(song, before, seenRevision);
      say.accept(song.id());
      StoredReading after = readings.of(song);
      return new Answer(
          after, Changes.between(before.reading(), after.reading()), after.reading().unplaced());
    }
  }

  private Object lock(String contentHash) {
    return locks.computeIfAbsent(contentHash, hash -> new Object());
  }

  static StudiedFile facts(Recording recording, Song.Words said) {
    Recording.Tags tags = recording.tags();
    return new StudiedFile(
        recording.contentHash(),
        recording.path(),
        recording.durationSeconds(),
        Song.Words.ofTags(tags.title(), tags.artist(), tags.year()),
        said);
  }
}
