/** Room that words take, before they are drawn: widths by kinds of letters, a little wide rather than narrow. */
const WIDTHS: [letters: RegExp, em: number][] = [
  [/[il|.,:;'!\s()/]/, 0.38],
  [/[ftrjI°]/, 0.45],
  [/[mwMW%#♯]/, 0.92],
  [/[A-Z]/, 0.72],
];
const OTHER = 0.635;
const BOLD = 1.1;

export function textWidth(text: string, size: number, bold = false): number {
  let em = 0;
  for (const letter of text) em += widthOf(letter);
  return em * size * (bold ? BOLD : 1);
}

const known = new Map<string, number>();

function widthOf(letter: string): number {
  let em = known.get(letter);
  if (em === undefined) known.set(letter, (em = WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHER));
  return em;
}

/** Words in as many rows as they need; nothing is cut short. */
export function wrapped(text: string, width: number, size: number): string[] {
  const rows: string[] = [];
  for (const word of text.split(" ").filter(Boolean)) {
    const longer = rows.length > 0 ? `${rows[rows.length - 1]} ${word}` : word;
    if (rows.length > 0 && textWidth(longer, size) <= width) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows;
}

/** Something with a name that stands at its moment; names that would run into each other are set smaller, shorter, higher. */
export interface Label {
  x: number;
  /** Ways to write it, the one to be preferred first, each with its width. */
  forms: Form[];
}

export interface Form {
  text: string;
  below: string;
  small: boolean;
  width: number;
}

export interface PlacedLabel {
  form: Form;
  x: number;
  /** 0 on the line, from 1 on in rows above it. */
  level: number;
}

/** Most rows of names above one another. */
const LEVELS = 4;

/**
 * Gives every label, from left to right, the lowest row in which it runs into nothing, written as fully as the next
 * ones allow; one that would leave the line on the right is moved back into it.
 */
export function placeLabels(labels: readonly Label[], right: number): PlacedLabel[] {
  const ends: number[] = [];
  const free = (level: number, x: number) => (ends[level] ?? -Infinity) <= x;
  return labels.map((label, i) => {
    const next = labels[i + 1]?.x ?? right;
    const afterNext = labels[i + 2]?.x ?? right;
    const at = (form: Form) => Math.min(label.x, right - form.width);
    const shortest = label.forms[label.forms.length - 1];
    const fits = (form: Form, until: number) => at(form) + form.width <= until;
    const low = free(0, label.x);
    const form = (low && label.forms.find((one) => fits(one, next) && free(0, at(one)))) || label.forms.find((one) => one.small && fits(one, afterNext)) || shortest;
    const x = at(form);
    let level = 0;
    while (level < LEVELS - 1 && !free(level, x)) level++;
    ends[level] = x + form.width;
    return { form, x, level };
  });
}
