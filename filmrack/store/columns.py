"""What each column of the darkroom file means, in words: for whoever opens it or an export of it.

Moments are UTC in ISO 8601; days are local dates of the school.
"""

from __future__ import annotations

from collections.abc import Mapping

COLUMNS: Mapping[str, Mapping[str, str]] = {
    "settings": {
        "name": "what is set",
        "value": "its value, as JSON",
    },
    "desks": {
        "name": "a desk at which the file is or was open",
        "opened": "when it was opened",
        "alive_at": "when it last said that it is still there",
    },
    "terms": {
        "code": "the term: two digits of the year and a letter",
        "starts": "its first day",
        "ends": "its last day",
        "closed_at": "since when it is closed and its rolls are only read; empty while open",
    },
    "periods": {
        "number": "the class period's number in the room",
        "name": "what the room calls it",
        "gone": "1 when the room has it no more",
    },
    "timetable": {
        "plan": "which day plan: a weekday, a day letter or a plain name",
        "period": "the period that meets",
        "starts": "when it begins, local time",
        "ends": "when it ends, local time",
    },
    "days_off": {
        "first": "the first day without school",
        "last": "the last one",
        "name": "why",
    },
    "one_offs": {
        "date": "a day with a plan of its own",
        "name": "why",
        "plan": "the name of its day plan, or the plan itself as JSON",
        "keeps_letter": "1 when the day letter is left for the next school day",
    },
    "dryers": {
        "number": "the dryer's number",
        "name": "what the room calls it",
        "clear_height_mm": "how far a strip can hang down, in mm",
        "dial_hours": "the hours to which its dial is turned",
        "gone": "1 when the room has it no more",
    },
    "rods": {
        "number": "the rod's number in the room",
        "dryer": "the dryer in which it is",
        "positions": "how many positions it has",
        "spacing_mm": "from one position to the next, in mm",
        "counted_from": "the side from which positions are counted",
        "period": "the class period it is given to; empty for none",
        "gone": "1 when the room has it no more",
    },
    "boxes": {
        "number": "the number of the box that holds dry, uncut rolls",
        "period": "the class period whose box it is",
        "gone": "1 when the room has it no more",
    },
    "clips": {
        "number": "the number on both tags of a clip pair",
        "lost": "what each clip of the pair has lost: hook A, tag B, …; empty for nothing",
        "retired_at": "since when it is out of use; empty while in use",
    },
    "binders": {
        "term": "the term whose sleeves it holds",
        "number": "the binder's number within the term",
        "period": "the class period it was begun for; empty for none",
    },
    "people": {
        "id": "the person's number, the only thing that other tables know of them",
        "school_id": "the school's own number of them",
        "given": "given name; empty when wiped",
        "family": "family name; empty when wiped",
        "called": "the name they go by, where it is another",
        "name_stands": "1 when they asked for their name, so that no roster changes it back",
        "left_at": "since when they have left; empty while they are here",
        "wiped_at": "when their names were wiped; empty while they are kept",
    },
    "enrolments": {
        "person": "who is enrolled",
        "term": "in which term",
        "period": "in which class period",
    },
    "name_tokens": {
        "token": "a word of a name, without case and accents, by which a person is found",
        "person": "whose name it is in",
        "backward": "the word from its last letter on, to find it by its end",
    },
    "notes": {
        "id": "the note's number, by which ledger, rolls and loans name it",
        "text": "what somebody wrote, or the room file of before a change, or people and clips"
        " before and after one; empty when it held a name that was wiped",
    },
    "rolls": {
        "id": "the roll's number within the file",
        "term": "the term in which it is numbered",
        "serial": "its number within the term, from 1 without gaps",
        "person": "whose it is; empty for an unknown owner",
        "period": "the class period it belongs to",
        "film": "format and nominal frames",
        "frames": "the pictures on it, once counted",
        "clue": "the note that says something of an unknown roll",
        "place": "the kind of place where it is; void for a number whose roll was undone",
        "clip": "the clip pair on it",
        "rod": "the rod on which it hangs",
        "position": "its position on the rod, from 1",
        "box": "the box in which it lies",
        "binder": "the binder in which it belongs, also while it is out",
        "since": "when it came to its place",
        "seen": "the last place where a hand had it",
        "seen_at": "when that was",
        "first_at": "when it was first on the record",
        "sent": "1 when it was sent to another period's rod for want of room",
        "hung_at": "when it was hung up to dry",
        "stays": "each stretch on a rod as JSON: rod, from, until, 1 for the second way up",
        "page_name": "the kind of sleeve page",
        "sleeved_at": "when it was cut and sleeved",
        "filed_at": "when it was last filed in a binder",
        "gone_at": "when it was handed back or discarded",
        "assumed": "acts that nobody told but a later one implied, as JSON",
    },
    "touch_checks": {
        "roll": "the roll that was touched",
        "nth": "which touch of it, from 0",
        "at": "when",
        "dry": "1 for dry, 0 for tacky",
        "source": "the act that told it",
    },
    "sleeves": {
        "roll": "the roll in the sleeve page",
        "page": "which page of the roll, from 1",
        "strips": "the frames on each strip, as JSON; none listed where it was never counted",
    },
    "contact_sheets": {
        "roll": "the roll it was made of",
        "nth": "which sheet of it, from 0",
        "at": "when it was made",
        "paper": "the paper",
        "picks": "the frames chosen on it, as JSON",
    },
    "loans": {
        "roll": "the roll that is borrowed",
        "at": "since when",
        "until": "the day on which it is due back",
        "person": "who has it, where that is a person of the school",
        "note": "the note that names any other borrower",
    },
    "fan_runs": {
        "dryer": "the dryer whose fan ran",
        "starts": "from when",
        "ends": "until when",
        "assumed": "1 when nobody told, but hanging goes with turning the dial",
        "refuted": "1 when it was found off",
    },
    "lessons": {
        "roll": "the roll whose touch checks taught something",
        "dryer": "the dryer they speak of",
        "checked_at": "when it was last touched",
        "checks": "minutes the first way up, minutes flipped, and dry or not, as JSON",
        "tacky": "how many of them said tacky",
        "found_dry": "the dryer minutes at which it was first found dry and stayed so",
        "evidence": "what they say of each possible dryer, as hexadecimal bytes",
    },
    "learned": {
        "dryer": "the dryer",
        "evidence": "what it is held to be like after all its lessons, as hexadecimal bytes",
        "proven": "1 when it has been touched often enough",
        "least": "the least dryer minutes after which anything was found dry",
    },
    "label_queue": {
        "id": "the order of the queue",
        "kind": "the kind of label that waits to be printed",
        "roll": "the roll it is for",
        "page": "the sleeve page it is for",
        "queued_at": "since when it waits",
    },
    "sheet_positions": {
        "stock": "the label stock",
        "next_label": "the first free label on the sheet in hand, from 1",
    },
    "sweeps": {
        "id": "the sweep's number",
        "started": "when it was begun",
        "finished": "when it was finished; empty while it goes on",
        "period": "the class period whose rods were swept; empty for all",
    },
    "sweep_counts": {
        "sweep": "the sweep",
        "rod": "the rod that was counted",
        "expected": "rolls that should have hung there",
        "counted": "rolls that a hand counted; empty where they were scanned at once",
        "matched": "rolls found where the record had them",
        "extra": "rolls found that the record had elsewhere or nowhere",
    },
    "ledger": {
        "id": "the entry's number; no entry is ever changed or removed",
        "act_group": "entries of one key press have the same number",
        "happened": "when it happened",
        "entered": "when it was told",
        "act": "what was done",
        "roll": "the roll it was done to; empty for room, fans, term, sweep and count",
        "detail": "the particulars as JSON: numbers, codes and what the room calls a film, page or"
        " paper, never a person's name",
        "by": "what kind of desk it was done at",
        "desk": "which desk",
        "undoes": "the entry that this one takes back",
    },
}
"""Each table of the file with each of its columns."""
