import { clock } from "../time/words";
import { LEVEL_HEIGHT } from "./lineLayout";
import { HOLLOW_WIDTH, type PlacedChord } from "./place";
import { chordWords, lacksThird } from "./words";

/** Where the name of a chord stands from the top of its line, and its numeral below it. */
const CHORD = 25;
const NUMERAL = 17;
const SMALL_NUMERAL = 14;

interface Props {
  placed: PlacedChord;
  unit: number;
  /** How much room the raised names have above the others. */
  lift: number;
  varied: boolean;
}

/** A chord's name with its numeral, where it arrives. */
export function ChordMark({ placed, unit, lift, varied }: Props) {
  const { chord, same, held, form, level } = placed;
  const x = placed.labelX / unit;
  const sounds = placed.x / unit;
  const y = CHORD + lift - LEVEL_HEIGHT * level;
  const lead = Math.abs(placed.nominalX - placed.x) > 3;
  const hollow = lacksThird(chord) && !held;
  const classes = ["chord", same || held ? "same" : varied ? "varied" : "new", form.small ? "small" : "", chord.open ? "unsure" : ""].join(" ");
  return (
    <g class={classes}>
      <title>{`${chordWords(chord)} at ${clock(chord.startSeconds, true)}`}</title>
      {level > 0 && <path class="stem" d={`M${sounds.toFixed(1)} ${y - 10}V${CHORD + lift - 12}`} />}
      {hollow && <circle class="hollow" cx={x + 6} cy={y - 5} r={3.1} />}
      <text class="symbol" x={x + (hollow ? HOLLOW_WIDTH : 1)} y={y}>{form.text}</text>
      {form.below && <text class="numeral" x={x + 1} y={y + (form.small ? SMALL_NUMERAL : NUMERAL)}>{form.below}</text>}
      {lead && <path class="lead" d={leadStroke(sounds, placed.nominalX / unit, y + 3.5)} />}
    </g>
  );
}

/** A small tie from where a chord comes to where the beat has it. */
function leadStroke(from: number, to: number, y: number): string {
  const middle = (from + to) / 2;
  return `M${from.toFixed(1)} ${y}Q${middle.toFixed(1)} ${y + 5} ${to.toFixed(1)} ${y}`;
}
