package undersong.render.score;

import undersong.theory.ChordSymbol;
import undersong.theory.Key;

/**
 * One chord as it is played.
 *
 * @param arrivalBeat when it begins to sound, in beats from the first bar line
 * @param endBeat when the next one begins
 * @param earlyBeats how far before its written place it arrives
 */
record ChordEvent(
    int sectionIndex,
    double arrivalBeat,
    double endBeat,
    double earlyBeats,
    ChordSymbol symbol,
    Key key) {}
