/** Instruments that read in another key than they sound, as the desk calls them, with the usual words. */
export const INSTRUMENTS: [value: string, words: string][] = [
  ["concert", "C: as it sounds"], ["b-flat", "Bb (trumpet, clarinet)"], ["b-flat-low", "Bb, an octave lower (tenor saxophone)"],
  ["a", "A (clarinet)"], ["e-flat", "Eb (alto saxophone)"], ["e-flat-low", "Eb, an octave lower (baritone saxophone)"], ["f", "F (horn)"],
];
