"""Fits which notes of the accompaniment belong to lines that move by themselves, and writes the table that ``MovingNotes`` reads.

    ./measure tune pulse-tune space-tune stage-tune           # renders what is missing
    java ... undersong.bench.decode.LineRows CACHE SOUNDFONT rows.csv tune pulse-tune space-tune stage-tune
    python3 training/lines.py rows.csv app/src/main/resources/undersong/estimate/line-notes.txt

The first line names the evidence. A row: set, recording, of a line (1) or not (0), evidence; a copy's own row has -1, how many notes its
lines have and the seconds it lasts. Regression, weights of rows, folds and limits as in ``repeats.py``, of which this is another use;
the limit is ``leastMoving`` of ``LineSettings``. The bench songs must not be used for this.
"""

import sys
from pathlib import Path

from repeats import fitted, read

LIMITS = (0, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4)


def main():
    lines = fitted("line-notes", *read(sys.argv[1], 2), LIMITS)
    lines.insert(0, "# How likely a note of the accompaniment is one of a line: facet, evidence, weight. Fitted by training/lines.py.")
    print("\n".join(lines))
    if len(sys.argv) > 2:
        Path(sys.argv[2]).write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
