"""One hanging roll, minute by minute, in a dryer whose fan runs from nine."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.bell import minutes_to_dry
from filmrack.domain.course import Course, DryingRules
from filmrack.domain.dryer import FanRun, FanSetting, WayUp, fan_runs
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.outlook import Outlook, course_of, how_not_dry, not_dry_words
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import TouchCheck
from filmrack.domain.touch import TimedCheck
from tests.domain.taught import learn
from tests.domain.twelve_rolls import TWELVE_ROLLS

NINE = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
SECOND = timedelta(seconds=1)
FRESH = learn([])
TAUGHT = learn([CheckedRoll.of(checks) for checks in TWELVE_ROLLS])
FAN = (FanRun(NINE, NINE + timedelta(hours=1)),)
UNFLIPPED = (WayUp(NINE),)


def after(minutes):
    return NINE + timedelta(minutes=minutes)


def flipped_at(minutes):
    return (WayUp(NINE, after(minutes)), WayUp(after(minutes), None, flipped=True))


def outlook(stays, runs, checks, learned, now, **rest):
    return Outlook(course_of(stays, runs, checks, learned, **rest), now)


def state(stays, runs, checks, learned, minutes, **rest):
    return outlook(stays, runs, checks, learned, after(minutes), **rest).state


def test_a_roll_is_wet_until_its_flip_then_asks_for_it_then_for_a_touch():
    flip = TAUGHT.flip
    assert state(UNFLIPPED, FAN, (), TAUGHT, flip - 0.1) == "wet"
    assert state(UNFLIPPED, FAN, (), TAUGHT, flip + 0.1) == "flip"
    assert state(UNFLIPPED, FAN, (), TAUGHT, 12.3) == "touch"
    assert outlook(UNFLIPPED, FAN, (), TAUGHT, after(1)).flip_at == pytest.approx(
        after(flip), abs=2 * SECOND
    )


def test_a_roll_flipped_halfway_is_dry_at_its_minutes():
    at_once = outlook(flipped_at(4), FAN, (), TAUGHT, after(4.1))
    assert at_once.likely_at == pytest.approx(after(7.825), abs=2 * SECOND)
    assert at_once.dry_at == pytest.approx(after(11.54), abs=2 * SECOND)
    assert (at_once.state, at_once.flip_at) == ("wet", None)
    assert state(flipped_at(4), FAN, (), TAUGHT, 8) == "touch"
    later = outlook(flipped_at(4), FAN, (), TAUGHT, after(12))
    assert (later.state, later.by) == ("dry", "estimate")
    assert later.dry_at == at_once.dry_at


def test_a_roll_never_flipped_takes_half_as_long_again():
    left = outlook(UNFLIPPED, FAN, (), TAUGHT, after(1))
    assert left.likely_at == pytest.approx(after(12.21), abs=2 * SECOND)
    assert left.dry_at == pytest.approx(after(16.71), abs=2 * SECOND)


def test_a_roll_turned_twice_goes_on_from_what_its_ends_have_had():
    stays = (WayUp(NINE, after(2)), WayUp(after(2), after(6), flipped=True), WayUp(after(6)))
    now = outlook(stays, FAN, (), TAUGHT, after(8))
    assert now.dryer_minutes == pytest.approx(8)
    assert now.top_fraction == pytest.approx(now.bottom_fraction)
    assert now.flip_at is None


def test_the_slow_end_is_the_bottom_one_but_the_top_one_after_a_late_flip():
    early = outlook(UNFLIPPED, FAN, (), TAUGHT, after(3))
    assert early.bottom_fraction < early.top_fraction
    late = outlook(flipped_at(8), FAN, (), TAUGHT, after(9))
    assert late.top_fraction < late.bottom_fraction


def test_the_slower_end_is_as_far_as_the_dryer_minutes_say():
    now = outlook(UNFLIPPED, FAN, (), TAUGHT, after(6))
    assert now.dryer_minutes == pytest.approx(4)
    assert now.bottom_fraction == pytest.approx(4 / TAUGHT.median)


def test_a_dryer_that_has_taught_nothing_calls_nothing_dry_before_forty_fan_minutes():
    assert state(flipped_at(5), FAN, (), FRESH, 39.9) == "touch"
    dry = outlook(flipped_at(5), FAN, (), FRESH, after(40.1))
    assert (dry.state, dry.by) == ("dry", "estimate")
    assert state(flipped_at(5), FAN, (), FRESH, 20, rules=DryingRules(unproven_minutes=15)) == (
        "touch"
    ), "the chance must be there too"


def test_what_a_touch_says_beats_every_estimate():
    touched = outlook(UNFLIPPED, (), (TouchCheck(after(1), True),), FRESH, after(2))
    assert (touched.state, touched.by, touched.dry_at) == ("dry", "touch", after(1))


def test_a_tacky_after_a_dry_beats_it_and_a_dry_after_a_tacky_too():
    dry, tacky = TouchCheck(after(9), True), TouchCheck(after(10), False)
    assert state(flipped_at(4), FAN, (dry, tacky), TAUGHT, 10) == "wet"
    again = TouchCheck(after(11), True)
    assert state(flipped_at(4), FAN, (dry, tacky, again), TAUGHT, 11) == "dry"


def test_a_late_tacky_is_taken_at_its_word_though_the_chance_allows_that_it_is_wrong():
    tacky = (TouchCheck(after(18), False),)
    assert state(flipped_at(4), FAN, (), TAUGHT, 18) == "dry"
    now = outlook(flipped_at(4), FAN, tacky, TAUGHT, after(18))
    assert now.p_dry > 0.5
    assert (now.state, now.by) == ("wet", None)
    assert now.likely_at is not None
    assert now.likely_at > after(18)


def test_a_tacky_unflipped_roll_still_asks_for_its_flip():
    tacky = (TouchCheck(after(13), False),)
    assert state(UNFLIPPED, FAN, tacky, TAUGHT, 13) == "flip"


def test_a_roll_that_hung_for_a_night_and_is_found_tacky_asks_for_no_flip():
    # turning film over evens out what the fan gives its ends, which have long had it all
    tacky = (TouchCheck(after(13 * 60), False),)
    days = (WayUp(NINE, after(13 * 60)), WayUp(after(14 * 60)))
    for stays in (UNFLIPPED, days):
        now = outlook(stays, FAN, tacky, TAUGHT, after(14 * 60 + 5))
        assert (now.state, now.flip_at) == ("wet", None)
    again = (*tacky, TouchCheck(after(14 * 60 + 10), False))
    assert state(days, FAN, again, TAUGHT, 14 * 60 + 20) == "wet"


def test_a_roll_that_the_clock_called_dry_and_a_finger_tacky_asks_for_no_flip():
    assert state(UNFLIPPED, FAN, (), TAUGHT, 40) == "dry"
    assert state(UNFLIPPED, FAN, (TouchCheck(after(40), False),), TAUGHT, 41) == "wet"


def test_a_finger_that_found_it_dry_ends_the_flip_once_it_was_taken_down():
    dry, tacky = TouchCheck(after(5), True), TouchCheck(after(9), False)
    back = (WayUp(NINE, after(8)), WayUp(after(10)))
    assert state(back, FAN, (dry, tacky), TAUGHT, 12) == "wet"
    corrected = (dry, TouchCheck(after(6), False))
    assert state(UNFLIPPED, FAN, corrected, TAUGHT, 7) == "flip", "the word was a slip"


def test_a_rolls_own_tacky_check_counts_once_whether_it_is_learned_from_already_or_not():
    own = (TouchCheck(after(8), False),)
    now = outlook(flipped_at(4), FAN, own, TAUGHT, after(11))
    assert now.p_dry == pytest.approx(0.8409, abs=5e-5)
    counted = CheckedRoll.of([TimedCheck(4, 4, False)])
    learned = learn([*(CheckedRoll.of(checks) for checks in TWELVE_ROLLS), counted])
    again = outlook(flipped_at(4), FAN, own, learned, after(11), counted=counted)
    assert again.p_dry == pytest.approx(0.8409, abs=5e-5)
    other = outlook(flipped_at(4), FAN, (), learned, after(11))
    assert other.p_dry == pytest.approx(0.9114, abs=5e-5)


def test_with_the_fan_off_nothing_is_promised_and_only_the_night_dries():
    short = (FanRun(NINE, after(5)),)
    now = outlook(flipped_at(4), short, (), TAUGHT, after(6))
    assert (now.state, now.likely_at, now.dry_at) == ("wet", None, None)
    assert now.course.overnight == after(12 * 60)
    assert state(flipped_at(4), short, (), TAUGHT, 200) == "touch", "0.1 a minute without the fan"
    night = outlook(flipped_at(4), short, (), TAUGHT, after(12 * 60))
    assert (night.state, night.by, night.dry_at) == ("dry", "overnight", after(12 * 60))


def test_minutes_without_the_fan_never_lead_to_dry():
    short = (FanRun(NINE, after(9)),)
    unguarded = Learned(TAUGHT.posterior, proven=True, least=0)
    now = outlook(flipped_at(4), short, (), unguarded, after(300))
    assert now.p_dry > 0.99
    assert now.state == "touch"


def test_a_roll_found_tacky_after_hours_without_the_fan_is_a_slow_one():
    # as if still minutes were worth nothing, it is a fresh roll with 19 fan minutes
    fan = (FanRun(after(400), after(460)),)
    tacky = (TouchCheck(after(400), False),)
    fresh = (WayUp(after(400)),)
    assert state(fresh, fan, (), TAUGHT, 419) == "dry"
    assert state(UNFLIPPED, fan, tacky, TAUGHT, 419) == "touch"


@pytest.mark.parametrize("hours", [2, 3, 5])
def test_a_roll_found_tacky_after_hours_under_the_fan_is_wet_until_a_touch_or_the_night(hours):
    # nothing that the dryer taught allows that it is wet, so nothing taught tells when it is dry
    fan, tacky = (FanRun(NINE, after(1440)),), (TouchCheck(after(60 * hours), False),)
    course = course_of(flipped_at(4), fan, tacky, TAUGHT)
    for seconds in (0, 1, 2, 30, 60, 300, 1800, 7200):
        moment = after(60 * hours) + seconds * SECOND
        for _ in range(2):  # a first look and a second one at the same moment judge alike
            assert Outlook(course, moment).state == "wet"
    now = Outlook(course, after(60 * hours + 5))
    assert (now.likely_at, now.course.past_telling) == (None, True)
    night = Outlook(course, after(60 * hours + 12 * 60))
    assert (night.state, night.by) == ("dry", "overnight")


@pytest.mark.parametrize("tacky", [10, 12, 14, 16, 18])
def test_whoever_looks_first_or_each_second_judges_a_tacky_roll_alike(tacky):
    checks = (TouchCheck(after(tacky), False),)
    often = course_of(flipped_at(4), FAN, checks, TAUGHT)
    for seconds in range(0, 1200, 7):
        moment = after(tacky) + seconds * SECOND
        once = Course(
            stays=flipped_at(4),
            runs=FAN,
            own=checks,
            learned=TAUGHT,
            rules=DryingRules(),
            counted=None,
        )
        assert Outlook(once, moment).state == Outlook(often, moment).state


def test_after_a_tacky_the_forty_fan_minutes_of_an_unproven_dryer_begin_again():
    tacky = (TouchCheck(after(10), False),)
    assert state(flipped_at(5), FAN, tacky, FRESH, 49) == "touch"
    assert state(flipped_at(5), FAN, tacky, FRESH, 51) == "dry"


def test_a_flip_that_the_fan_will_not_reach_is_not_announced():
    assert outlook(UNFLIPPED, (FanRun(NINE, after(2)),), (), TAUGHT, after(3)).flip_at is None


def test_a_tacky_in_the_evening_starts_the_night_again():
    tacky = (TouchCheck(after(600), False),)
    assert outlook(UNFLIPPED, (), tacky, FRESH, after(721)).state != "dry"
    assert outlook(UNFLIPPED, (), tacky, FRESH, after(721)).course.overnight == after(1320)


def test_the_night_after_a_tacky_counts_from_it_over_a_flip():
    tacky = (TouchCheck(after(30), False),)
    assert outlook(flipped_at(60), (), tacky, FRESH, after(61)).course.overnight == after(750)


def test_time_off_the_rod_is_no_night_on_it():
    stays = (WayUp(NINE, after(60)), WayUp(after(600)))
    assert outlook(stays, (), (), FRESH, after(601)).course.overnight == after(600 + 11 * 60)


def test_rolls_that_relied_on_a_fan_found_off_fall_back_to_a_touch():
    assumed = FanSetting(NINE, 1, assumed=True)
    believed = fan_runs([assumed])
    assert state(flipped_at(4), believed, (), TAUGHT, 14) == "dry"
    refuted = fan_runs([assumed, FanSetting(after(13), 0)])
    now = outlook(flipped_at(4), refuted, (), TAUGHT, after(14))
    assert (now.state, now.dry_at) == ("touch", None)


def test_a_roll_that_never_hung_has_no_outlook():
    with pytest.raises(Refused, match="hang it first"):
        outlook((), FAN, (), FRESH, NINE)


def test_a_roll_flipped_as_advised_is_called_dry_after_the_minutes_to_dry():
    left = outlook(flipped_at(TAUGHT.flip), FAN, (), TAUGHT, after(TAUGHT.flip))
    assert left.dry_at == pytest.approx(after(minutes_to_dry(TAUGHT)), abs=2 * SECOND)


ALWAYS_DRY = [CheckedRoll.of([TimedCheck(n / 4, n / 4, True)]) for n in range(20, 60)]


@settings(max_examples=10, deadline=None)
@given(st.integers(1, 40), st.floats(0, 39.9))
def test_a_dryer_whose_tacky_results_are_never_logged_calls_none_dry_by_estimate(rolls, minutes):
    learned = learn(ALWAYS_DRY[:rolls])
    assert state(flipped_at(4), FAN, (), learned, minutes) != "dry"


@settings(max_examples=40, deadline=None)
@given(
    st.floats(0.5, 20),
    st.lists(st.tuples(st.floats(0, 60), st.just(False)), max_size=2),
    st.floats(0, 800),
    st.floats(0, 90),
    st.sampled_from([FRESH, TAUGHT]),
)
def test_the_states_keep_their_order_and_their_times(flip, touches, minutes, fan, learned):
    now = after(minutes)
    checks = tuple(TouchCheck(after(at), dry) for at, dry in touches if at <= minutes)
    stays = flipped_at(flip) if flip <= minutes else UNFLIPPED
    fan_run = (FanRun(NINE, after(fan)),) if fan else ()
    seen = outlook(stays, fan_run, checks, learned, now)
    assert (seen.state == "dry") == (seen.dry_at is not None and seen.dry_at <= now)
    assert (seen.by is not None) == (seen.state == "dry")
    if seen.state in ("wet", "flip"):
        assert seen.likely_at is None or seen.likely_at > now
    if seen.likely_at and seen.dry_at and seen.dry_at < seen.course.overnight:
        assert seen.likely_at <= seen.dry_at
    assert 0 <= seen.bottom_fraction <= 1
    assert 0 <= seen.p_dry <= 1


def test_what_wants_a_touch_is_counted_apart_and_never_called_wet():
    assert not_dry_words(["wet", "flip", "touch", "dry"]) == "2 wet, 1 to touch"
    assert not_dry_words(["touch", "dry"]) == "1 to touch"
    assert not_dry_words(["dry"]) == ""
    assert how_not_dry("touch") == "probably dry"
    assert how_not_dry("flip") == "wet by the clock"
