"""The ledger of a roll in words."""

from __future__ import annotations

from datetime import date

from filmrack.domain.clock import day_words
from filmrack.domain.counted import frames_words
from filmrack.domain.roll import Entry

_WORDS = {
    "load": "loaded",
    "shelve": "shelved",
    "hang": "hung",
    "flip": "flipped",
    "touch": "touched",
    "move": "moved",
    "seen": "seen by a sweep",
    "take": "taken by its owner",
    "box": "to the box",
    "sleeve": "cut and sleeved",
    "contact": "contact sheet made",
    "picks": "frames picked",
    "unpick": "frames picked no longer",
    "file": "filed",
    "lend": "lent",
    "back": "loan ended",
    "missing": "not seen any more",
    "unclip": "without a clip",
    "reclip": "clip put right",
    "found": "found",
    "release": "handed back",
    "discard": "discarded",
    "claim": "owner named",
    "swap": "owner exchanged",
    "note": "note",
    "count": "rod counted",
    "close": "term closed",
    "reopen": "term reopened",
    "room": "setting changed",
    "people": "people changed",
    "clips": "clip pairs changed",
}


def act_in_words(act: str) -> str:
    """Return what an act is called wherever people read of it: `handed back` for `release`."""
    return _WORDS.get(act, act)


def told(entry: Entry, borrower: str = "") -> str:
    """Return an entry in words: `hung on rod 3, position 4`; of a loan to whom, where it is
    known.
    """
    word, more = act_in_words(entry.act), particulars(entry)
    word += f" to {borrower}" if borrower else ""
    return f"{word}, {more}" if more else word


def particulars(entry: Entry) -> str:
    """Return what an entry says besides its act; notes are kept elsewhere and not told here."""
    detail = entry.detail
    match entry.act:
        case "hang" | "move":
            where = f"rod {detail['rod']}, position {detail['position']}"
            return f"{where}, put back tacky" if detail.get("tacky") else where
        case "found" if "position" in detail:
            return f"rod {detail['rod']}, position {detail['position']}"
        case "seen":
            return f"rod {detail['rod']}"
        case "touch":
            return "dry" if detail["dry"] else "tacky"
        case "load":
            return f"clip {detail['clip']}" if detail.get("clip") else ""
        case "box":
            return f"box {detail['box']}"
        case "file" | "shelve":
            return f"binder {detail['binder']}"
        case "sleeve":
            strips = " | ".join(" ".join(map(str, page)) for page in detail["pages"])
            return f"strips of {strips}"
        case "contact":
            picks = detail.get("picks")
            return detail["paper"] + (f", picks {frames_words(picks)}" if picks else "")
        case "picks" | "unpick":
            return frames_words(detail["picks"])
        case "lend":
            return f"due on {day_words(date.fromisoformat(detail['until']), entry.happened.date())}"
        case "reclip":
            before = detail.get("clip_before")
            return f"on clip {detail['clip']}" + (f", not {before}" if before else "")
        case "unclip":
            return "another roll has it"
        case "missing" if detail.get("other"):
            return f"its {detail.get('gave_up')} was found with another roll"
        case _:
            return ""
