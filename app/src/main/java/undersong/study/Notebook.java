package undersong.study;

import java.time.InstantSource;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import undersong.exchange.TimedNote;
import undersong.reading.Correction;
import undersong.reading.Reading;
import undersong.shelf.Hearing;
import undersong.shelf.Remark;
import undersong.shelf.Remarks;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.shelf.Verdict;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.work.Trouble;

/**
 * What listeners write down beside the reading: remarks, verdicts on findings, and what they heard
 * for themselves before they looked. Nothing of it changes the reading until it is said as a
 * correction.
 */
public final class Notebook {
  private static final int LONGEST_REMARK = 4000;

  private final Shelf shelf;
  private final InstantSource clock;

  Notebook(Shelf shelf, InstantSource clock) {
    this.shelf = shelf;
    this.clock = clock;
  }

  /** What listeners said of a song's findings, oldest first. */
  public List<Verdict> verdicts(long songId) {
    return shelf.verdicts().of(shelf.songs().get(songId).id());
  }

  /**
   * Keeps a listener's word on a finding; yes and no teach how this shelf ranks.
   *
   * @param words the listener's own; "" for none
   */
  public Verdict judge(
      long songId, Finding finding, Verdict.Answer answer, String words, String author) {
    return shelf
        .verdicts()
        .say(
            shelf.songs().get(songId).id(),
            finding.technique(),
            finding.span(),
            answer,
            words,
            author,
            clock.instant());
  }

  /** Takes back a verdict; throws {@link Trouble.WrongUsage} where it is not in force. */
  public void takeBackVerdict(long songId, long verdictId) {
    shelf.verdicts().takeBack(songId, verdictId);
  }

  /** What verdicts have taught the ranking of this shelf. */
  public Map<Technique, Ranking.Verdicts> taught() {
    return shelf.verdicts().taught();
  }

  /** The ranking forgets what verdicts taught it; the verdicts stay. */
  public void resetRanking(String author) {
    shelf.verdicts().resetRanking(author, clock.instant());
  }

  /** Remarks on a song, by place. */
  public List<Remark> remarks(long songId) {
    return shelf.remarks().of(shelf.songs().get(songId).id());
  }

  /**
   * @param endSeconds empty for a remark about a moment
   */
  public Remark remark(
      long songId, String author, double startSeconds, OptionalDouble endSeconds, String words) {
    requireSense(shelf.songs().get(songId), startSeconds, endSeconds, words);
    return shelf
        .remarks()
        .add(songId, author, clock.instant(), startSeconds, endSeconds, words.strip());
  }

  /**
   * Brings in notes written elsewhere, all or none; those that stand here already, at the same
   * place in the same words, are passed over.
   *
   * @return the remarks added
   */
  public List<Remark> bringIn(long songId, String author, List<TimedNote> notes) {
    Song song = shelf.songs().get(songId);
    for (TimedNote note : notes) {
      requireSense(song, note.startSeconds(), note.endSeconds(), note.words());
    }
    Set<TimedNote> standing = new HashSet<>();
    for (Remark remark : remarks(songId)) {
      standing.add(new TimedNote(remark.startSeconds(), remark.endSeconds(), remark.words()));
    }
    List<TimedNote> fresh = notes.stream().filter(standing::add).toList();
    return shelf
        .remarks()
        .addAll(
            songId,
            author,
            clock.instant(),
            fresh.stream()
                .map(note -> new Remarks.Place(note.startSeconds(), note.endSeconds()))
                .toList(),
            fresh.stream().map(note -> note.words().strip()).toList());
  }

  /**
   * The remark in other words or of another place; throws {@link Trouble.NotOnShelf}. What it said
   * before stays with it, whoever had said it.
   */
  public Remark reword(
      long songId,
      long remarkId,
      String author,
      double startSeconds,
      OptionalDouble endSeconds,
      String words) {
    requireSense(shelf.songs().get(songId), startSeconds, endSeconds, words);
    boolean there =
        shelf
            .remarks()
            .change(
                songId, remarkId, author, clock.instant(), startSeconds, endSeconds, words.strip());
    return remarks(songId).stream()
        .filter(remark -> there && remark.id() == remarkId)
        .findFirst()
        .orElseThrow(() -> none("remark", songId, remarkId));
  }

  public void takeAwayRemark(long songId, long remarkId) {
    if (!shelf.remarks().withdraw(songId, remarkId)) {
      throw none("remark", songId, remarkId);
    }
  }

  /** What listeners heard for themselves in a song, oldest first. */
  public List<Hearing> hearings(long songId) {
    return shelf.hearings().of(shelf.songs().get(songId).id());
  }

  /** The same, each held against a reading. */
  public List<Comparison> comparisons(long songId, Reading reading) {
    return hearings(songId).stream().map(heard -> Comparison.of(heard, reading)).toList();
  }

  /**
   * Keeps what a listener hears, without saying it against the reading.
   *
   * @param heard a key, chord, bass or melody note over a span
   */
  public Hearing hear(long songId, String author, Correction heard) {
    if (!Comparison.understands(heard)) {
      throw new Trouble.WrongUsage(
          "Heard for oneself may be a key, a chord, a bass note or a melody note; this is %s."
              .formatted(heard));
    }
    Anchors.requireInside(shelf.songs().get(songId), heard);
    return shelf.hearings().add(songId, author, clock.instant(), heard);
  }

  /** One hearing; throws {@link Trouble.NotOnShelf}. */
  public Hearing hearing(long songId, long hearingId) {
    return hearings(songId).stream()
        .filter(hearing -> hearing.id() == hearingId)
        .findFirst()
        .orElseThrow(() -> none("hearing", songId, hearingId));
  }

  /**
   * Notes what a listener decided; what others decided before stays beside it. Whoever decides for
   * their own word says it as a correction first.
   */
  public Hearing decide(long songId, long hearingId, String author, Hearing.Decision decision) {
    if (!shelf.hearings().decide(songId, hearingId, author, clock.instant(), decision)) {
      throw none("hearing", songId, hearingId);
    }
    return hearing(songId, hearingId);
  }

  public void takeAwayHearing(long songId, long hearingId) {
    if (!shelf.hearings().withdraw(songId, hearingId)) {
      throw none("hearing", songId, hearingId);
    }
  }

  private static void requireSense(
      Song song, double startSeconds, OptionalDouble endSeconds, String words) {
    double end = endSeconds.orElse(startSeconds);
    boolean ends = endSeconds.isEmpty() || end > startSeconds;
    if (!(startSeconds >= 0 && ends && end <= song.durationSeconds() + 0.5)) {
      throw new Trouble.WrongUsage(
          "A remark from %s s to %s s must lie inside song %d, which lasts %.2f s, and end after it begins."
              .formatted(startSeconds, end, song.id(), song.durationSeconds()));
    }
    if (words.isBlank() || words.length() > LONGEST_REMARK) {
      throw new Trouble.WrongUsage(
          "A remark must have 1 to %d letters; this one has %d."
              .formatted(LONGEST_REMARK, words.strip().length()));
    }
  }

  private static Trouble.NotOnShelf none(String what, long songId, long id) {
    return new Trouble.NotOnShelf(
        "Song %d has no %s %d. Maybe it was taken away in another window."
            .formatted(songId, what, id));
  }
}
