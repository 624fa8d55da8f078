package undersong.bench.data;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.HarteChord;

/**
 * Reads the scale-degree tunes of the rock corpus; see {@link RockCorpusReader#tune}. A bar is
 * shared evenly by its groups, a group by its slots.
 */
final class RockTune {
  private static final Pattern SLOT = Pattern.compile("([\\^v]*)([#bn]*)([1-7])|([.=_-])|(.)");
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};

  private int tonic;
  private int lastPitch = 60;
  private boolean afterRests;
  private final List<String> groups = new ArrayList<>();
  private final List<List<RockCorpusReader.Onset>> bars = new ArrayList<>();

  List<List<RockCorpusReader.Onset>> read(String text) {
    for (String token : text.replace("|", " | ").replace("| *", "|*").strip().split("\\s+")) {
      if (token.startsWith("[")) {
        tag(token.substring(1, Math.max(1, token.length() - 1)));
      } else if (token.matches("R\\*\\d+")) {
        rest(Integer.parseInt(token.substring(2)));
      } else if (token.matches("\\|\\*\\d+")) {
        close();
        rest(Integer.parseInt(token.substring(2)) - 1);
        afterRests = false;
      } else if (token.equals("|")) {
        close();
      } else if (!token.isEmpty()) {
        groups.add(token.equals("R") ? "." : token);
      }
    }
    return bars;
  }

  private void tag(String tag) {
    if (tag.startsWith("OCT=")) {
      lastPitch = 12 * (Integer.parseInt(tag.substring(4)) + 1) + tonic;
    } else if (tag.matches("[A-G][#b]?")) {
      tonic = HarteChord.pitchClass(tag);
    }
  }

  private void rest(int count) {
    for (int i = 0; i < count; i++) {
      bars.add(List.of());
    }
    afterRests = true;
  }

  /** Closes a bar; the line right after "R*n" closes none, since the rests closed themselves. */
  private void close() {
    if (!groups.isEmpty() || !afterRests) {
      bars.add(onsets());
    }
    afterRests = false;
    groups.clear();
  }

  private List<RockCorpusReader.Onset> onsets() {
    List<RockCorpusReader.Onset> onsets = new ArrayList<>();
    for (int g = 0; g < groups.size(); g++) {
      List<Integer> slots = slots(groups.get(g));
      for (int s = 0; s < slots.size(); s++) {
        if (slots.get(s) != REST) {
          double share = (g + (double) s / slots.size()) / groups.size();
          onsets.add(new RockCorpusReader.Onset(share, slots.get(s)));
        }
      }
    }
    return onsets;
  }

  private static final int REST = -1;

  private List<Integer> slots(String group) {
    List<Integer> slots = new ArrayList<>();
    Matcher slot = SLOT.matcher(group);
    while (slot.find()) {
      if (slot.group(3) != null) {
        slots.add(pitch(slot.group(1), slot.group(2), slot.group(3).charAt(0) - '1'));
      } else if (slot.group(4) != null) {
        slots.add(REST);
      } else {
        throw new Harvest.Unreadable("\"%s\" is no part of a tune".formatted(group));
      }
    }
    return slots;
  }

  private int pitch(String direction, String accidentals, int step) {
    int altered = accidentals.chars().map(s -> s == '#' ? 1 : s == 'b' ? -1 : 0).sum();
    int pitchClass = Math.floorMod(tonic + MAJOR[step] + altered, 12);
    int up = Math.floorMod(pitchClass - lastPitch, 12);
    int pitch = lastPitch + (up <= 6 ? up : up - 12);
    if (direction.startsWith("^") && pitch <= lastPitch) {
      pitch += 12;
    } else if (direction.startsWith("v") && pitch >= lastPitch) {
      pitch -= 12;
    }
    lastPitch = pitch;
    return pitch;
  }
}
