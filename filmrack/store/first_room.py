"""The first version of the darkroom file: the tables of the room, its days and its people.

Released, so never edited: a change is a further step, see `schema`.
"""

from __future__ import annotations

# What a room has no more stays, marked as gone: the rolls, sweeps and fan runs of other days
# name it, and what is undone may lead back to it.
PLACES = """
CREATE TABLE settings (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE desks (
  name TEXT PRIMARY KEY,
  opened TEXT NOT NULL,
  alive_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE terms (
  code TEXT PRIMARY KEY CHECK (code GLOB '[0-9][0-9][A-HJ-KM-NP-Z]'),
  starts TEXT NOT NULL,
  ends TEXT NOT NULL CHECK (ends >= starts),
  closed_at TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE periods (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 99),
  name TEXT NOT NULL,
  gone INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX one_period_of_a_name ON periods (name) WHERE NOT gone;

CREATE TABLE timetable (
  plan TEXT NOT NULL,
  period INTEGER NOT NULL REFERENCES periods,
  starts TEXT NOT NULL,
  ends TEXT NOT NULL CHECK (ends > starts),
  PRIMARY KEY (plan, period, starts)
) STRICT, WITHOUT ROWID;

CREATE TABLE days_off (
  first TEXT NOT NULL,
  last TEXT NOT NULL CHECK (last >= first),
  name TEXT NOT NULL,
  PRIMARY KEY (first, last)
) STRICT, WITHOUT ROWID;

CREATE TABLE one_offs (
  date TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL,
  plan TEXT NOT NULL,
  keeps_letter INTEGER NOT NULL DEFAULT 0 CHECK (keeps_letter IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TABLE dryers (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 99),
  name TEXT NOT NULL,
  clear_height_mm INTEGER NOT NULL CHECK (clear_height_mm > 0),
  dial_hours REAL NOT NULL CHECK (dial_hours > 0 AND dial_hours <= 24),
  gone INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX one_dryer_of_a_name ON dryers (name) WHERE NOT gone;

CREATE TABLE rods (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 99),
  dryer INTEGER NOT NULL REFERENCES dryers,
  positions INTEGER NOT NULL CHECK (positions BETWEEN 1 AND 99),
  spacing_mm INTEGER NOT NULL CHECK (spacing_mm > 0),
  counted_from TEXT NOT NULL CHECK (counted_from IN ('left', 'right')),
  period INTEGER REFERENCES periods,
  gone INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1))
) STRICT;

CREATE TABLE boxes (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 99),
  period INTEGER NOT NULL REFERENCES periods,
  gone INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX one_box_of_a_period ON boxes (period) WHERE NOT gone;

CREATE TABLE clips (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 999),
  lost TEXT NOT NULL DEFAULT '',
  retired_at TEXT
) STRICT;

CREATE TABLE binders (
  term TEXT NOT NULL REFERENCES terms,
  number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 99),
  period INTEGER REFERENCES periods,
  PRIMARY KEY (term, number)
) STRICT, WITHOUT ROWID;
"""

PEOPLE = """
CREATE TABLE people (
  id INTEGER PRIMARY KEY CHECK (id BETWEEN 1 AND 9999),
  school_id TEXT UNIQUE,
  given TEXT NOT NULL,
  family TEXT NOT NULL,
  called TEXT,
  name_stands INTEGER NOT NULL DEFAULT 0 CHECK (name_stands IN (0, 1)),
  left_at TEXT,
  wiped_at TEXT
) STRICT;

CREATE TABLE enrolments (
  person INTEGER NOT NULL REFERENCES people,
  term TEXT NOT NULL REFERENCES terms,
  period INTEGER NOT NULL REFERENCES periods,
  PRIMARY KEY (person, term)
) STRICT, WITHOUT ROWID;
CREATE INDEX enrolments_of_a_period ON enrolments (term, period);

CREATE TABLE name_tokens (
  token TEXT NOT NULL,
  person INTEGER NOT NULL REFERENCES people,
  backward TEXT NOT NULL,
  PRIMARY KEY (token, person)
) STRICT, WITHOUT ROWID;
CREATE INDEX name_tokens_of_a_person ON name_tokens (person);
CREATE INDEX name_tokens_backward ON name_tokens (backward);

CREATE TABLE notes (
  id INTEGER PRIMARY KEY,
  text TEXT NOT NULL
) STRICT;
"""
