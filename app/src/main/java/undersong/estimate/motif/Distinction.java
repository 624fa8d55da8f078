package undersong.estimate.motif;

/**
 * How much a cell stands out from everyday matter, in points: one each for an uneven rhythm, for
 * notes foreign to the chord, and for at least three different pitch classes that are not merely
 * the chord broken in even notes; half a point each for a step and for an onset off the beat that
 * is held over it. A cell that mostly repeats its note has none. A chord broken in even notes, or a
 * root and its fifth, has none of the first three.
 */
final class Distinction {
  /** A cell that mostly repeats its note is no figure. */
  private static final double MOVING = 0.4;

  private Distinction() {}

  static double of(Cell cell, Setting setting, int unitsPerBeat) {
    int classes = 0;
    int moves = 0;
    int foreign = 0;
    boolean steps = false;
    boolean offBeat = false;
    boolean uneven = false;
    for (int i = 0; i < cell.size(); i++) {
      double middle = cell.notes().get(i).span().middleSeconds();
      classes |= 1 << cell.pitch(i) % 12;
      foreign += setting.belongs(cell.pitch(i), middle) ? 0 : 1;
      if (i > 0) {
        int apart = Math.abs(cell.pitch(i) - cell.pitch(i - 1));
        moves += apart > 0 ? 1 : 0;
        steps |= apart == 1 || apart == 2;
        uneven |= i > 1 && apart(cell, i) != apart(cell, i - 1);
        offBeat |=
            cell.offset(i - 1) % unitsPerBeat != 0
                && cell.offset(i) / unitsPerBeat > cell.offset(i - 1) / unitsPerBeat
                && cell.offset(i) % unitsPerBeat != 0;
      }
    }
    int different = Integer.bitCount(classes);
    if (different < 2 || moves < Math.max(2, MOVING * (cell.size() - 1))) {
      return 0;
    }
    double points = uneven ? 1 : 0;
    points += foreign > 0 && different >= 3 ? 1 : 0;
    points += different >= 3 && (uneven || foreign > 0) ? 1 : 0;
    boolean plain = points == 0;
    return plain ? 0 : points + (steps ? 0.5 : 0) + (offBeat ? 0.5 : 0) - (different < 3 ? 1 : 0);
  }

  private static int apart(Cell cell, int note) {
    return cell.offset(note) - cell.offset(note - 1);
  }
}
