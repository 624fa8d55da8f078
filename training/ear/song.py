"""The plan of one clip: timeline, sections with their keys and layers, and the chords over them."""

from dataclasses import dataclass, field, replace

from ear import form, progressions
from ear.theory import Chord
from ear.timeline import Timeline

MODE_WEIGHTS = {"major": 33, "natural minor": 15, "harmonic minor": 13, "melodic minor": 6, "dorian": 10, "mixolydian": 10,
                "phrygian": 7, "lydian": 7}
MODULATIONS = {1: 12, 2: 14, 3: 10, 5: 12, 7: 12, 9: 10, 10: 6, 4: 4, 8: 4, 11: 6, 6: 2}
# Semitones by which a song rises (or falls) for a later return and stays there; common practice, no source.
LIFTS = {1: 34, 2: 44, 3: 8, 4: 4, 5: 5, -1: 2, -2: 3}
HALVED_SHARE, SHORTEST_HALVED_BARS = 0.3, 8
PREPARED_SHARE, VEILED_SHARE = 0.5, 0.15
CHART_SHARE = 0.45
FORM_SHARE = 0.55
LONE_SHARE = 0.045
LONE = dict(drums=False, bass=False, comps=(False, False, False), lead=True, texture=False, speech=False, energy=1.0)


@dataclass
class Section:
    """A stretch of whole bars with one key, one set of layers and its own chords."""

    start_beat: float
    end_beat: float
    tonic: int
    mode: str
    drums: bool = True
    bass: bool = True
    comps: tuple = (True, True, True)
    lead: bool = True
    texture: bool = False
    speech: bool = False
    energy: float = 1.0
    keyed: bool = True      # whether its chords tell a key
    kind: int = 0           # sections of one kind share chords, patterns and tune
    into: float = 0.0       # beats of its material that have passed before it begins
    marked: bool = True     # whether its beginning is a boundary a listener hears
    halfway: bool = False   # whether it is the second half of a section, played otherwise than the first


@dataclass
class Span:
    """A chord (or None) from one beat position to another, with the same span in seconds."""

    start_beat: float
    end_beat: float
    start: float
    end: float
    chord: Chord
    section: Section


@dataclass
class Song:
    """Everything the players need; ``jitter`` is the deviation of their timing in seconds."""

    dice: object
    timeline: Timeline
    clip_seconds: float
    sections: list
    spans: list = field(default_factory=list)
    jitter: float = 0.0
    sheet: object = None
    active: tuple = None    # (start, end) in seconds outside which the recording is empty

    def humanized(self, seconds, scale=1.0):
        return seconds + self.dice.gauss(0, self.jitter * scale) if self.jitter else seconds

    def bars(self, section):
        """Start beats of the bars of a section."""
        step = self.timeline.bar_beats
        beat = section.start_beat
        while beat < section.end_beat - 1e-6:
            yield beat
            beat += step

    def chord_at(self, beat):
        for span in self.spans:
            if span.start_beat - 1e-6 <= beat < span.end_beat - 1e-6:
                return span.chord
        return None

    def audible(self, span):
        return span.chord is not None and span.end > -0.6 and span.start < self.clip_seconds


def draw_sections(dice, timeline, clip_seconds):
    """Sections that cover the clip: a stretch of a song with its returns, a lone line, or sections that only differ."""
    tonic, mode = dice.below(12), dice.weighted(MODE_WEIGHTS)
    if dice.chance(LONE_SHARE):
        return [Section(0, timeline.total_beats, tonic, mode, marked=False, **LONE)]
    if dice.chance(FORM_SHARE):
        return _formed_sections(dice, timeline, tonic, mode)
    return _loose_sections(dice, timeline, clip_seconds, tonic, mode)


def _formed_sections(dice, timeline, tonic, mode):
    """A stretch of a song whose sections return with the same chords, patterns and tune."""
    bar = timeline.bar_beats
    kinds = form.draw_kinds(dice, bar * timeline.period)
    keys = {0: (tonic, mode)}
    for kind in list(kinds)[1:]:
        keys[kind] = _modulated(dice, tonic, mode) if dice.chance(0.34) else (tonic, mode)
    layers, lift, sections = {}, 0, []
    for place in form.draw_order(dice, kinds, timeline.total_beats // bar + 1):
        base = layers.get(place.kind) or (_changed(dice, next(iter(layers.values()))) if layers else _layers(dice))
        layers.setdefault(place.kind, base)
        returning = place.again and not dice.chance(0.4)
        told = base if returning else _changed(dice, base) if place.again else base
        if place.kind == form.PLAYED and dice.chance(0.85):
            told = dict(told, lead=False, texture=dice.chance(0.65))
        lift += dice.weighted(LIFTS) if place.lifts else 0
        key, name = keys[place.kind]
        start, end = place.start_bar * bar, min(place.end_bar * bar, timeline.total_beats)
        if end > start:
            sections.append(Section(start, end, (key + lift) % 12, name, marked=bool(sections), kind=place.kind, into=place.into_bars * bar, **told))
    return [part for whole in sections for part in _halved(dice, whole, bar)]


def _halved(dice, section, bar):
    """Now and then a long section is played otherwise from its middle on: less than a boundary, more than nothing."""
    bars = int((section.end_beat - section.start_beat) / bar)
    if bars < SHORTEST_HALVED_BARS or not dice.chance(HALVED_SHARE):
        return [section]
    half = bars // 2 * bar
    layers = {name: getattr(section, name) for name in LONE}
    later = replace(section, start_beat=section.start_beat + half, into=section.into + half, marked=False, halfway=True, **_changed(dice, layers))
    return [replace(section, end_beat=section.start_beat + half), later]


def _loose_sections(dice, timeline, clip_seconds, tonic, mode):
    """One to four sections; the first begins before the clip, the last ends after it."""
    bar = timeline.bar_beats
    total_bars = timeline.total_beats // bar
    first_bar = timeline.beat_at(0.0) // bar
    last_bar = timeline.beat_at(clip_seconds) // bar
    cuts, inner = [0], last_bar - first_bar - 1
    if inner >= 3:
        count = dice.weighted({0: 30, 1: 42, 2: 20, 3: 8})
        free = [first_bar + 2 + i for i in range(max(0, inner - 2))]
        for cut in sorted(dice.shuffled(free)[:count]):
            if cut - cuts[-1] >= 2 and timeline.beats[cut * bar] - timeline.beats[cuts[-1] * bar] > 2.5:
                cuts.append(cut)
    cuts.append(total_bars + 1)
    layers = _layers(dice)
    sections = []
    for i, (a, b) in enumerate(zip(cuts, cuts[1:])):
        marked = i > 0
        if i > 0:
            if dice.chance(0.36):
                tonic, mode = _modulated(dice, tonic, mode)
            layers = _changed(dice, layers)
        sections.append(Section(a * bar, min(b * bar, timeline.total_beats), tonic, mode, marked=marked, kind=i, **layers))
    return [s for whole in sections for part in _with_key_change(dice, whole, bar) for s in _halved(dice, part, bar)]


def _with_key_change(dice, section, bar):
    """Now and then the key changes inside a section, which is no boundary."""
    bars = int((section.end_beat - section.start_beat) / bar)
    if bars < 6 or not dice.chance(0.14):
        return [section]
    cut = section.start_beat + bar * (2 + dice.below(bars - 3))
    tonic, mode = _modulated(dice, section.tonic, section.mode)
    return [replace(section, end_beat=cut), replace(section, start_beat=cut, tonic=tonic, mode=mode, marked=False, kind=section.kind + 100)]


def _modulated(dice, tonic, mode):
    kind = dice.weighted({"step": 55, "relative": 20, "parallel": 15, "mode": 10})
    if kind == "step":
        return (tonic + dice.weighted(MODULATIONS)) % 12, mode
    if kind == "relative" and mode in ("major", "natural minor", "harmonic minor"):
        if mode == "major":
            return (tonic + 9) % 12, dice.pick(("natural minor", "harmonic minor"))
        return (tonic + 3) % 12, "major"
    if kind == "parallel":
        return tonic, dice.pick(("natural minor", "harmonic minor")) if mode in ("major", "mixolydian", "lydian") else "major"
    return tonic, dice.weighted(MODE_WEIGHTS)


def _layers(dice):
    if dice.chance(0.03):
        return dict(LONE)
    lead = dice.chance(0.82)
    comps = dice.weighted({(True, False, False): 28, (True, True, False): 42, (True, True, True): 24, (False, False, False): 6})
    return dict(drums=dice.chance(0.76), bass=dice.chance(0.82), comps=comps, lead=lead,
                texture=dice.chance(0.28 if lead else 0.5), speech=dice.chance(0.1), energy=dice.uniform(0.6, 1.15))


def _changed(dice, layers):
    """The layers of the next section: at least one of them differs, or the energy does."""
    new = dict(layers)
    change = dice.weighted({"lead": 30, "drums": 18, "bass": 12, "comps": 20, "all": 20})
    if change == "all":
        new = _layers(dice)
    elif change == "comps":
        new["comps"] = _layers(dice)["comps"]
    else:
        new[change] = not new[change]
    new["energy"] = min(1.25, max(0.45, layers["energy"] + dice.pick((-0.3, -0.15, 0.15, 0.3))))
    new["texture"] = dice.chance(0.28 if new["lead"] else 0.5)
    return new


def draw_chords(dice, timeline, sections, charts):
    """The chord spans of all sections: loops, walks over learned charts, drones; early, late and absent chords."""
    spans, written = [], {}
    for section in sections:
        if section.kind in written:
            spans += _returning(section, *written[section.kind])
            section.keyed = written[section.kind][0].keyed
            continue
        length = max(s.into + s.end_beat - s.start_beat for s in sections if s.kind == section.kind)
        kind = dice.weighted({"loop": 78, "drone": 7, "wander": 8, "colorful": 7})
        tables = charts.get(section.mode) if charts else None
        if tables and len(tables) > 30 and kind != "colorful" and dice.chance(CHART_SHARE):
            rows = progressions.chart_walk(dice, tables, section.tonic, timeline.bar_beats, length)
        else:
            style = progressions.Style(dice)
            if kind == "drone":
                loop = progressions.drone(dice, section.tonic)
            elif kind == "colorful":
                loop, section.keyed = progressions.colorful(dice, section.mode, section.tonic), False
            elif kind == "loop":
                loop = progressions.free_loop(dice, style, section.mode, section.tonic)
                veiled = dice.chance(VEILED_SHARE)
                loop = progressions.veiled(dice, loop, section.tonic) if veiled else loop
            else:
                loop = []
                for _ in range(16):
                    loop.append(progressions.free_chord(dice, style, section.mode, section.tonic, loop[-1] if loop else None))
            rows = progressions.bars_of(dice, loop, timeline, length)
            if kind == "loop" and veiled:
                rows[-1] = (*rows[-1][:2], progressions.home(section.mode, section.tonic))
        if dice.chance(0.05):
            rows = [(a, b, chord and Chord(chord.root, chord.kind, section.tonic)) for a, b, chord in rows]
        written[section.kind] = (section, rows)
        spans += _returning(section, section, rows)
    spans = _prepared(dice, timeline.bar_beats, spans)
    _shift(dice, timeline, spans)
    if dice.chance(0.07):
        bar = timeline.bar_beats
        start = dice.below(max(1, timeline.total_beats // bar)) * bar
        end = start + bar * (1 + dice.below(2))
        for span in spans:
            if span[0] >= start - 0.6 and span[1] <= end + 0.6:
                span[2] = None
    if dice.chance(0.015):
        for span in spans:
            span[2] = None
    seconds = timeline.seconds
    return [Span(a, b, seconds(a), seconds(b), chord, section) for a, b, chord, section in spans if b - a > 0.05]


def _returning(section, first, rows):
    """Spans of a section that has the chords of the first one of its kind, in its own key and from its own place on."""
    step, length, out = section.tonic - first.tonic, section.end_beat - section.start_beat, []
    for a, b, chord in rows:
        a, b = max(a - section.into, 0.0), min(b - section.into, length)
        if b - a > 1e-6:
            out.append([section.start_beat + a, section.start_beat + b, chord and chord.moved(step), section])
    return out


def _prepared(dice, bar_beats, spans):
    """Leads into some of the key changes, within the last bar: by a chord both keys share, or by the dominant of the key to come."""
    out = spans[:1]
    for before, here in zip(spans, spans[1:]):
        old, new = before[3], here[3]
        changes = old is not new and (old.tonic, old.mode) != (new.tonic, new.mode)
        if changes and before[2] is not None and dice.chance(PREPARED_SHARE):
            shared = progressions.shared(old.mode, old.tonic, new.mode, new.tonic)
            chord = dice.pick(shared) if shared and dice.chance(0.5) else progressions.dominant(dice, new.tonic)
            if before[1] - before[0] > bar_beats + 1e-6:
                cut = before[1] - bar_beats
                out.append([cut, before[1], chord, old])
                before[1] = cut
            else:
                before[2] = chord
        out.append(here)
    return out


def _shift(dice, timeline, spans):
    """Moves some chord changes ahead of the beat or behind it."""
    early = 0.5 if dice.chance(0.16) else 0.0
    late = 0.3 if dice.chance(0.05) else 0.0
    step = 1 / 3 if timeline.compound else dice.pick((0.5, 0.5, 0.25))
    for before, here in zip(spans, spans[1:]):
        if early and dice.chance(early) and before[1] - before[0] > 2 * step:
            here[0] = before[1] = here[0] - step
        elif late and dice.chance(late) and here[1] - here[0] > 2 * step:
            here[0] = before[1] = here[0] + step
