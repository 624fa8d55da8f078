// Reads MusicXML files with a general-purpose reader of notation (the npm package verovio) and tells as JSON what it understood:
// per file and staff the bars by number and every sounding note, ties joined: [bar, start in quarters of the piece, quarters, MIDI note,
// MIDI note as one plays it who sees only staff, signature and the signs drawn].
// Times are the reader's own reckoning from note values, dots, tuplets and meters. With a folder as "--draw DIR", first pages are drawn as SVG.
// Usage: node readMusicXml.mjs [--draw DIR] FILE...
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";

const files = process.argv.slice(2);
const folder = files[0] === "--draw" ? files.splice(0, 2)[1] : null;
const reader = new VerovioToolkit(await createVerovioModule());

function staves() {
  const found = [];
  let bar = null;
  let notes = null;
  let staff = 0;
  let note = null;
  let signs = new Map();
  const signatures = [];
  for (const [, name, attributes] of reader.getMEI().matchAll(/<(measure|scoreDef|staffDef|keySig|staff|note|accid|tie)\s([^>]*?)\/?>/g)) {
    const of = (key) => new RegExp(`(?:^|\\s)${key}="([^"]*)"`).exec(attributes)?.[1];
    if (name === "measure") bar = Number(of("n"));
    if (name === "staff") {
      notes = found[Number(of("n")) - 1] ??= { bars: [], notes: [] };
      notes.bars.push(bar);
      notes = notes.notes;
    }
    if (name === "staffDef") staff = Number(of("n"));
    if (name === "scoreDef") staff = 0;
    if (name === "keySig" && staff === 0) signatures.fill(of("sig"));
    if (name === "keySig") signatures[staff] = of("sig");
    if (name === "staff") {
      staff = Number(of("n"));
      signs = new Map();
    }
    if (name === "note") {
      note = { id: of("xml:id"), bar, letter: of("pname"), octave: Number(of("oct")) };
      notes.push(note);
      if (of("accid")) signs.set(note.letter + note.octave, of("accid"));
    }
    if (name === "accid" && of("accid")) signs.set(note.letter + note.octave, of("accid"));
    if (name === "note" || name === "accid") note.drawn = seen(note, signs, signatures[staff] ?? "0");
    if (name === "tie") ties.set(of("startid").slice(1), of("endid").slice(1));
  }
  return found;
}

function seen({ letter, octave }, signs, signature) {
  const [, count, kind] = /^(\d)([sf]?)/.exec(signature);
  const inOrder = kind === "f" ? "beadgcf" : "fcgdaeb";
  const bySignature = inOrder.indexOf(letter) < Number(count) ? kind : "n";
  const alter = { n: 0, s: 1, f: -1, ss: 2, x: 2, ff: -2 }[signs.get(letter + octave) ?? bySignature];
  return 12 * (octave + 1) + { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 }[letter] + alter;
}

let ties = new Map();
const told = files.map((file) => {
  ties = new Map();
  reader.setOptions({ inputFrom: "xml", transposeToSoundingPitch: true, pageWidth: 2100, pageHeight: 2970, scale: 40 });
  if (!reader.loadData(readFileSync(file, "utf8"))) throw new Error(`${file} could not be read: ${reader.getLog()}`);
  if (folder) writeFileSync(join(folder, `${basename(file, ".musicxml")}.svg`), reader.renderToSVG(1));
  const on = new Map();
  const off = new Map();
  for (const moment of reader.renderToTimemap({ includeMeasures: true })) {
    for (const id of moment.on ?? []) on.set(id, moment.qstamp);
    for (const id of moment.off ?? []) off.set(id, moment.qstamp);
  }
  const parts = staves();
  const held = new Set(ties.values());
  return parts.map(({ bars, notes }) => ({
    bars,
    notes: notes.filter(({ id }) => !held.has(id)).map(({ id, bar, drawn }) => {
      let last = id;
      while (ties.has(last)) last = ties.get(last);
      return [bar, on.get(id), (off.get(last) ?? off.get(id)) - on.get(id), reader.getMIDIValuesForElement(id).pitch, drawn];
    }),
  }));
});
console.log(JSON.stringify(told));
