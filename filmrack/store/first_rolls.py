"""The first version of the darkroom file: the tables of rolls and what is done with them, the
ledger, the views.

Released, so never edited: a change is a further step, see `schema`.
"""

from __future__ import annotations

ROLLS = """
CREATE TABLE rolls (
  id INTEGER PRIMARY KEY,
  term TEXT NOT NULL REFERENCES terms,
  serial INTEGER NOT NULL CHECK (serial > 0),
  person INTEGER REFERENCES people,
  period INTEGER REFERENCES periods,
  film TEXT NOT NULL,
  frames INTEGER,
  clue INTEGER REFERENCES notes,
  place TEXT NOT NULL CHECK (place IN ('tank', 'rod', 'box', 'owner', 'sleeve', 'binder', 'out',
    'missing', 'handed_back', 'discarded', 'void')),
  clip INTEGER REFERENCES clips,
  rod INTEGER REFERENCES rods,
  position INTEGER,
  box INTEGER REFERENCES boxes,
  binder INTEGER,
  since TEXT NOT NULL,
  seen TEXT NOT NULL,
  seen_at TEXT NOT NULL,
  first_at TEXT NOT NULL,
  sent INTEGER NOT NULL DEFAULT 0,
  hung_at TEXT,
  stays TEXT NOT NULL DEFAULT '[]',
  page_name TEXT,
  sleeved_at TEXT,
  filed_at TEXT,
  gone_at TEXT,
  assumed TEXT NOT NULL DEFAULT '[]',
  UNIQUE (term, serial),
  CHECK ((place = 'rod') = (rod IS NOT NULL)),
  CHECK ((place = 'rod') = (position IS NOT NULL)),
  CHECK ((place = 'box') = (box IS NOT NULL)),
  CHECK (place <> 'binder' OR binder IS NOT NULL),
  CHECK (clip IS NULL OR place IN ('tank', 'rod', 'box', 'owner', 'missing')),
  FOREIGN KEY (term, binder) REFERENCES binders (term, number)
) STRICT;
CREATE UNIQUE INDEX one_roll_at_a_position ON rolls (rod, position) WHERE rod IS NOT NULL;
CREATE UNIQUE INDEX one_roll_on_a_clip ON rolls (clip) WHERE clip IS NOT NULL;
CREATE INDEX rolls_by_serial ON rolls (serial);
CREATE INDEX rolls_of_a_person ON rolls (person, id);
CREATE INDEX rolls_in_a_box ON rolls (box, since) WHERE box IS NOT NULL;
CREATE INDEX rolls_in_a_binder ON rolls (term, binder) WHERE binder IS NOT NULL;
CREATE INDEX rolls_to_sleeve ON rolls (place, since) WHERE sleeved_at IS NULL AND gone_at IS NULL;
CREATE INDEX rolls_to_file ON rolls (place, since)
  WHERE place IN ('sleeve', 'out', 'missing');
CREATE INDEX rolls_by_sleeving ON rolls (sleeved_at) WHERE sleeved_at IS NOT NULL;
CREATE INDEX rolls_by_hanging ON rolls (period, hung_at) WHERE hung_at IS NOT NULL;
CREATE INDEX rolls_by_leaving ON rolls (gone_at) WHERE gone_at IS NOT NULL;

CREATE TABLE touch_checks (
  roll INTEGER NOT NULL REFERENCES rolls,
  nth INTEGER NOT NULL,
  at TEXT NOT NULL,
  dry INTEGER NOT NULL CHECK (dry IN (0, 1)),
  source TEXT NOT NULL,
  PRIMARY KEY (roll, nth)
) STRICT, WITHOUT ROWID;
CREATE INDEX touch_checks_by_time ON touch_checks (at);

CREATE TABLE sleeves (
  roll INTEGER NOT NULL REFERENCES rolls,
  page INTEGER NOT NULL CHECK (page BETWEEN 1 AND 9),
  strips TEXT NOT NULL,
  PRIMARY KEY (roll, page)
) STRICT, WITHOUT ROWID;

CREATE TABLE contact_sheets (
  roll INTEGER NOT NULL REFERENCES rolls,
  nth INTEGER NOT NULL,
  at TEXT NOT NULL,
  paper TEXT NOT NULL,
  picks TEXT NOT NULL,
  PRIMARY KEY (roll, nth)
) STRICT, WITHOUT ROWID;

CREATE TABLE loans (
  roll INTEGER PRIMARY KEY REFERENCES rolls,
  at TEXT NOT NULL,
  until TEXT NOT NULL,
  person INTEGER REFERENCES people,
  note INTEGER REFERENCES notes
) STRICT;

CREATE TABLE fan_runs (
  dryer INTEGER NOT NULL REFERENCES dryers,
  starts TEXT NOT NULL,
  ends TEXT NOT NULL CHECK (ends > starts),
  assumed INTEGER NOT NULL CHECK (assumed IN (0, 1)),
  refuted INTEGER NOT NULL CHECK (refuted IN (0, 1)),
  PRIMARY KEY (dryer, starts)
) STRICT, WITHOUT ROWID;
CREATE INDEX fan_runs_by_end ON fan_runs (ends);

-- What touch checks have taught: derived from the ledger and kept, because it is slow to work out.
CREATE TABLE lessons (
  roll INTEGER PRIMARY KEY REFERENCES rolls,
  dryer INTEGER NOT NULL REFERENCES dryers,
  checked_at TEXT NOT NULL,
  checks TEXT NOT NULL,
  tacky INTEGER NOT NULL,
  found_dry REAL,
  evidence BLOB NOT NULL
) STRICT;
CREATE INDEX lessons_of_a_dryer ON lessons (dryer, checked_at, roll);
CREATE INDEX lessons_that_count ON lessons (dryer, checked_at, roll) WHERE evidence <> x'';

CREATE TABLE learned (
  dryer INTEGER PRIMARY KEY REFERENCES dryers,
  evidence BLOB NOT NULL,
  proven INTEGER NOT NULL CHECK (proven IN (0, 1)),
  least REAL NOT NULL
) STRICT;

CREATE TABLE label_queue (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  roll INTEGER NOT NULL REFERENCES rolls,
  page INTEGER NOT NULL,
  queued_at TEXT NOT NULL,
  UNIQUE (kind, roll, page)
) STRICT;

CREATE TABLE sheet_positions (
  stock TEXT PRIMARY KEY,
  next_label INTEGER NOT NULL CHECK (next_label > 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE sweeps (
  id INTEGER PRIMARY KEY,
  started TEXT NOT NULL,
  finished TEXT,
  period INTEGER REFERENCES periods
) STRICT;

CREATE TABLE sweep_counts (
  sweep INTEGER NOT NULL REFERENCES sweeps,
  rod INTEGER NOT NULL REFERENCES rods,
  expected INTEGER NOT NULL,
  counted INTEGER,
  matched INTEGER NOT NULL,
  extra INTEGER NOT NULL,
  PRIMARY KEY (sweep, rod)
) STRICT, WITHOUT ROWID;
"""

LEDGER = """
-- AUTOINCREMENT keeps the highest number apart (sqlite_sequence): a ledger cut at its end shows.
CREATE TABLE ledger (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  act_group INTEGER NOT NULL,
  happened TEXT NOT NULL,
  entered TEXT NOT NULL,
  act TEXT NOT NULL,
  roll INTEGER REFERENCES rolls DEFERRABLE INITIALLY DEFERRED,
  detail TEXT NOT NULL CHECK (json_valid(detail)),
  by TEXT NOT NULL,
  desk TEXT NOT NULL,
  undoes INTEGER REFERENCES ledger
) STRICT;
CREATE INDEX ledger_of_a_roll ON ledger (roll, happened, id);
CREATE INDEX ledger_groups ON ledger (act_group);
CREATE INDEX ledger_of_a_desk ON ledger (desk, act_group);
CREATE INDEX ledger_by_time ON ledger (happened);
CREATE INDEX ledger_of_the_fan ON ledger (happened, id) WHERE act = 'fan';
CREATE INDEX ledger_of_a_sweep ON ledger (json_extract(detail, '$.sweep'), id)
  WHERE json_extract(detail, '$.sweep') IS NOT NULL;
CREATE UNIQUE INDEX ledger_undone_once ON ledger (undoes) WHERE undoes IS NOT NULL;

CREATE TRIGGER ledger_is_never_changed BEFORE UPDATE ON ledger
BEGIN SELECT RAISE(ABORT, 'nothing in the ledger is changed'); END;
CREATE TRIGGER ledger_is_never_shortened BEFORE DELETE ON ledger
BEGIN SELECT RAISE(ABORT, 'nothing in the ledger is removed'); END;
"""

VIEWS = """
CREATE VIEW hanging_now AS
SELECT r.term || '-' || printf('%04d', r.serial) AS roll, coalesce(p.called, p.given) AS given,
  p.family, r.period, r.rod, r.position, r.clip, r.hung_at
FROM rolls r LEFT JOIN people p ON p.id = r.person
WHERE r.rod IS NOT NULL ORDER BY r.rod, r.position;

CREATE VIEW in_boxes AS
SELECT r.box, r.term || '-' || printf('%04d', r.serial) AS roll,
  coalesce(p.called, p.given) AS given, p.family, r.period, r.clip, r.since
FROM rolls r LEFT JOIN people p ON p.id = r.person
WHERE r.box IS NOT NULL ORDER BY r.box, r.since;

-- By the clock of the reader's machine: what hangs since an earlier day. The room's own rule, which
-- knows the timetable, is in the program.
CREATE VIEW left_behind AS
SELECT * FROM hanging_now WHERE date(hung_at, 'localtime') < date('now', 'localtime');

CREATE VIEW archive AS
SELECT r.term, r.binder, r.term || '-' || printf('%04d', r.serial) AS roll,
  coalesce(p.called, p.given) AS given, p.family, r.period, r.film, r.place, r.sleeved_at,
  (SELECT min(c.at) FROM contact_sheets c WHERE c.roll = r.id) AS contact_at, r.filed_at
FROM rolls r LEFT JOIN people p ON p.id = r.person
WHERE r.sleeved_at IS NOT NULL;

CREATE VIEW term_summary AS
SELECT term, place, count(*) AS rolls FROM rolls GROUP BY term, place;
"""
