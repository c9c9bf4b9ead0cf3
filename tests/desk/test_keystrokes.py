"""A scanner is a keyboard; a person is a slower one. Codes by the project's own check digits."""

from __future__ import annotations

import hypothesis.strategies as st
import pytest
from hypothesis import assume, given

from filmrack.desk.keystrokes import (
    HELD,
    LONGEST,
    SETTLE,
    SURE,
    TWICE,
    Submitted,
    Typed,
    character,
    edited,
    settled,
    sure,
    terminator,
)
from filmrack.domain import codes

ENDINGS = {
    "Enter": ["enter"],
    "Tab": ["tab"],
    "LF": ["ctrl+j"],
    "CR LF": ["enter", "ctrl+j"],
    "nothing": [],
}
TICK = 0.05
"""How often the line looks whether a code has settled."""

ANY_CODE = st.one_of(
    st.builds(codes.clip_code, st.integers(1, 999), st.sampled_from("AB")),
    st.builds(codes.rod_code, st.integers(1, 99)),
    st.builds(codes.person_code, st.integers(1, 9999)),
    st.builds(codes.roll_code, st.sampled_from(["26F", "27S"]), st.integers(1, 12000)),
    st.sampled_from(list(codes.ACTIONS)).map(codes.action_code),
)


class Keyboard:
    """Types into a line and keeps what it submits; time passes only when it is told to."""

    def __init__(self) -> None:
        self.typed = Typed()
        self.at = 100.0
        self.out: list[Submitted] = []

    def _took(self, typed: Typed, submitted: Submitted | None) -> None:
        self.typed = typed
        if submitted is not None:
            self.out.append(submitted)

    def wait(self, seconds: float) -> None:
        end = self.at + seconds
        while self.at < end:
            self.at = min(end, self.at + TICK)
            self._took(*settled(self.typed, self.at))

    def type(self, text: str, gap: float = 0.0) -> None:
        for one in text:
            self._took(*sure(self.typed))
            self.typed = character(self.typed, one, self.at)
            self.wait(gap)

    def end(self, *keys: str, gap: float = 0.0) -> None:
        for key in keys:
            self._took(*terminator(self.typed, key, self.at))
            self.wait(gap)

    @property
    def texts(self) -> list[str]:
        return [each.text for each in self.out]


@given(
    code=ANY_CODE,
    gap=st.floats(0, 0.03),
    ending=st.sampled_from(list(ENDINGS)),
    between=st.floats(0, 0.03),
)
def test_a_scan_submits_its_code_once_whatever_it_ends_in(
    code: str, gap: float, ending: str, between: float
) -> None:
    desk = Keyboard()
    desk.type(code, gap)
    desk.end(*ENDINGS[ending], gap=between)
    desk.wait(2)
    assert desk.texts == [code]
    assert desk.typed.text == ""


@given(code=ANY_CODE, gap=st.floats(0, 0.03), ending=st.sampled_from(list(ENDINGS)))
def test_caps_lock_changes_nothing(code: str, gap: float, ending: str) -> None:
    desk = Keyboard()
    desk.type(code.swapcase(), gap)
    desk.end(*ENDINGS[ending])
    desk.wait(2)
    assert [codes.read(text) for text in desk.texts] == [codes.read(code)]


@given(
    first=ANY_CODE,
    second=ANY_CODE,
    gap=st.floats(0, 0.03),
    ending=st.sampled_from([name for name in ENDINGS if name != "nothing"]),
    between=st.floats(0, 0.5),
)
def test_two_scans_in_a_row_are_two_codes_and_nothing_else(
    first: str, second: str, gap: float, ending: str, between: float
) -> None:
    assume(codes.read(first) != codes.read(second))
    desk = Keyboard()
    for code in (first, second):
        desk.type(code, gap)
        desk.end(*ENDINGS[ending], gap=gap)
        desk.wait(between)
    desk.wait(2)
    assert desk.texts == [first, second]


@given(
    code=ANY_CODE,
    ending=st.sampled_from(list(ENDINGS)),
    apart=st.floats(0.4, 3),
)
def test_a_code_read_twice_within_a_second_counts_once_and_later_twice(
    code: str, ending: str, apart: float
) -> None:
    assume(abs(apart - TWICE) > 0.4)
    desk = Keyboard()
    for _ in range(2):
        desk.type(code)
        desk.end(*ENDINGS[ending])
        desk.wait(apart)
    desk.wait(2)
    assert desk.texts == [code] * (1 if apart < TWICE else 2)


@given(left=st.text("abcdefgh", min_size=1, max_size=12), code=ANY_CODE, gap=st.floats(0, 0.03))
def test_a_scan_counts_although_somebody_left_letters_in_the_line(
    left: str, code: str, gap: float
) -> None:
    desk = Keyboard()
    desk.type(left, 0.1)
    desk.wait(SETTLE)
    desk.type(code, gap)
    desk.end("enter")
    assert codes.read(desk.texts[0]) == codes.read(code)


def test_a_code_behind_which_nothing_comes_waits_300_ms() -> None:
    desk = Keyboard()
    desk.type("C017A70", 0.01)
    desk.wait(SETTLE - 0.1)
    assert desk.texts == []
    desk.wait(0.2)
    assert desk.out == [Submitted("C017A70", "nothing")]


def test_a_name_waits_for_its_enter() -> None:
    desk = Keyboard()
    desk.type("mara", 0.2)
    desk.wait(60)
    assert desk.texts == []


def test_enter_alone_counts_and_half_a_second_later_counts_once_more() -> None:
    desk = Keyboard()
    desk.end("enter")
    desk.wait(0.5)
    desk.end("enter")
    desk.wait(SURE + TICK)
    assert desk.texts == ["", ""]


def test_enter_after_a_second_and_more_counts_at_once() -> None:
    desk = Keyboard()
    desk.type("17 flip")
    desk.end("enter")
    desk.wait(HELD + 0.01)
    desk.end("enter")
    assert desk.texts == ["17 flip", ""]


@pytest.mark.parametrize(("gap", "soon"), [(0.31, True), (0.39, True), (0.5, False), (1.5, False)])
def test_an_enter_right_behind_a_line_is_told_from_a_later_one(gap: float, soon: bool) -> None:
    desk = Keyboard()
    desk.type("mara", 0.2)
    desk.end("enter")
    desk.wait(gap)
    desk.end("enter")
    desk.wait(1)
    assert [each.soon for each in desk.out] == [False, soon]


@pytest.mark.parametrize("delay", [0.25, 0.5, 0.66, 1.0])
@pytest.mark.parametrize("rate", [0.02, 0.033, 0.09])
def test_a_held_enter_is_one_enter(delay: float, rate: float) -> None:
    """Common practice: keyboards repeat after 250 to 1000 ms, 11 to 50 times a second."""
    desk = Keyboard()
    desk.type("17 dry")
    desk.end("enter")
    desk.wait(delay)
    for _ in range(40):
        desk.end("enter", gap=rate)
    desk.wait(2)
    assert desk.texts == ["17 dry"]


def test_who_types_on_after_enter_held_nothing() -> None:
    desk = Keyboard()
    desk.end("enter")
    desk.wait(0.5)
    desk.end("enter")
    desk.type("m")
    assert desk.texts == ["", ""]
    assert desk.typed.text == "m"


@given(text=st.text(max_size=700))
def test_a_paste_is_typing_and_submits_nothing(text: str) -> None:
    typed = character(Typed(), text, 1.0)
    assert len(typed.text) <= LONGEST
    assert all(one.isprintable() for one in typed.text)


def test_the_line_ends_of_a_paste_keep_words_apart() -> None:
    assert character(Typed(), "17\r\nmar\rrod 3\n", 1.0).text == "17 mar rod 3"


@given(
    keys=st.lists(
        st.sampled_from(
            ["a", "é", "backspace", "delete", "left", "right", "home", "end", "ctrl+u", "ctrl+w"]
        ),
        max_size=40,
    )
)
def test_the_cursor_never_leaves_the_text(keys: list[str]) -> None:
    typed = Typed()
    for key in keys:
        typed = edited(typed, key, 1.0) if len(key) > 1 else character(typed, key, 1.0)
        assert 0 <= typed.cursor <= len(typed.text)
        assert 0 <= typed.since <= len(typed.text)


def test_words_are_taken_away_one_by_one() -> None:
    typed = edited(character(Typed(), "17 rod 3", 1.0), "ctrl+w", 1.0)
    assert typed.text == "17 rod "
    assert edited(typed, "ctrl+u", 1.0).text == ""
