-- Every decision about what somebody heard, not only the last.
CREATE TABLE hearing_decision (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  hearing_id INTEGER NOT NULL REFERENCES hearing (id),
  author     TEXT    NOT NULL,
  said_at    TEXT    NOT NULL,
  decision   TEXT    NOT NULL CHECK (decision IN ('OPEN', 'MINE', 'PROGRAM', 'BOTH'))
) STRICT;

CREATE INDEX hearing_decision_of_hearing ON hearing_decision (hearing_id, id);

PRAGMA user_version = 13;
