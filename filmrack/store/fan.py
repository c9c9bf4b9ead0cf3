"""The runs of each dryer's fan, folded from the settings of its dial on the ledger."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from filmrack.domain.dryer import FanRun, FanSetting, fan_runs
from filmrack.domain.roll import Entry
from filmrack.store import ledger
from filmrack.store.times import from_text, to_text

LONGEST_RUN = timedelta(hours=24)
"""No dial goes further, so a setting older than this changes nothing any more."""


def runs(
    conn: sqlite3.Connection, since: datetime, until: datetime | None = None
) -> dict[int, list[FanRun]]:
    """Return the runs that ended after a moment, by dryer and in time order.

    Those that began from `until` on are left out.
    """
    where, values = "ends > ?", [to_text(since)]
    if until is not None:
        # No run is longer than a day, so that of many years only a few are looked at.
        where += " AND ends <= ? AND starts < ?"
        values += [to_text(until + LONGEST_RUN), to_text(until)]
    found: dict[int, list[FanRun]] = {}
    for row in conn.execute(
        f"SELECT * FROM fan_runs WHERE {where} ORDER BY starts", values
    ).fetchall():
        found.setdefault(row["dryer"], []).append(
            FanRun(
                from_text(row["starts"]),
                from_text(row["ends"]),
                bool(row["assumed"]),
                bool(row["refuted"]),
            )
        )
    return found


def runs_as_of(
    conn: sqlite3.Connection, since: datetime, until: datetime
) -> dict[int, list[FanRun]]:
    """Return the runs as they looked at a moment: what was set later is not known yet."""
    told = ledger.of_the_fan(conn, since - LONGEST_RUN)
    settings = _settings([entry for entry in told if entry.happened <= until])
    return {number: list(fan_runs(its_settings)) for number, its_settings in settings.items()}


def refold(conn: sqlite3.Connection, at: datetime) -> datetime | None:
    """Write the runs anew that a setting at a moment, or its undoing, can have changed.

    Returns the moment from which what hung has had other minutes than it seemed, None for never.
    """
    since = at - LONGEST_RUN
    text = to_text(since)
    rows = conn.execute(
        "SELECT dryer, starts, ends, refuted, assumed FROM fan_runs WHERE ends > ? AND starts >= ?",
        (text, text),
    ).fetchall()
    before = {(row[0], row[1]): (row[2], bool(row[3]), bool(row[4])) for row in rows}
    after = _runs_of(ledger.of_the_fan(conn, since))
    changed = [run for run in before.keys() | after.keys() if before.get(run) != after.get(run)]
    conn.executemany("DELETE FROM fan_runs WHERE dryer = ? AND starts = ?", changed)
    _write(conn, {run: after[run] for run in changed if run in after})
    if not changed:
        return None
    return from_text(min(_differ_from(run[1], before.get(run), after.get(run)) for run in changed))


_Run = tuple[int, str]
"""In which dryer a run was, and from when."""
_End = tuple[str, bool, bool]
"""When a run ended, whether it was refuted, and whether nobody had told of it."""


def _differ_from(start: str, one: _End | None, other: _End | None) -> str:
    """A run that was found off casts doubt on all of it, one that was cut short on what is cut."""
    if one is None or other is None or one[1] != other[1]:
        return start
    return min(one[0], other[0])


def fold_anew(conn: sqlite3.Connection) -> None:
    """Write all runs anew from the ledger."""
    conn.execute("DELETE FROM fan_runs")
    _write(conn, _runs_of(ledger.of_the_fan(conn, datetime.min.replace(tzinfo=UTC))))


def _write(conn: sqlite3.Connection, runs: dict[_Run, _End]) -> None:
    conn.executemany(
        "INSERT INTO fan_runs (dryer, starts, ends, refuted, assumed) VALUES (?, ?, ?, ?, ?)",
        [(*run, *end) for run, end in runs.items()],
    )


def _runs_of(told: Iterable[Entry]) -> dict[_Run, _End]:
    return {
        (number, to_text(run.starts)): (to_text(run.ends), run.refuted, run.assumed)
        for number, its_settings in _settings(told).items()
        for run in fan_runs(its_settings)
    }


def _settings(entries: Iterable[Entry]) -> dict[int, list[FanSetting]]:
    settings: dict[int, list[FanSetting]] = {}
    for entry in entries:
        detail = entry.detail
        settings.setdefault(detail["dryer"], []).append(
            FanSetting(entry.happened, detail["hours"], entry.assumed)
        )
    return settings
