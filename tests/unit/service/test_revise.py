"""Test curls read back against the plan."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.rulebook.condition import Condition
from drill.rulebook.proof import prove
from drill.service.facts import FACTS
from drill.service.kit import Kit, Tool
from drill.service.plan import plan_service
from drill.service.revise import STRENGTHS, TestCurlsSeen, revise

GOOD = TestCurlsSeen(minutes=8, longest_min=12, wet="right", dry="right", hair="sound", skin="calm")
CURLS = st.sampled_from(("none", "weak", "right", "too_tight", "frizzy", "unknown"))
SEEN = st.builds(
    TestCurlsSeen,
    minutes=st.none() | st.floats(min_value=0, max_value=40),
    longest_min=st.none() | st.floats(min_value=1, max_value=30),
    wet=CURLS,
    dry=CURLS,
    hair=st.sampled_from(("sound", "harsh", "gum_like", "shedding", "unknown")),
    skin=st.sampled_from(("calm", "sore", "unknown")),
)


@pytest.fixture(scope="module")
def tested(rulebook, consult):
    """Plan heads of which nothing is on record here: sound, coloured, resistant, weak, declined."""
    heads = {
        "sound": consult(history__known="no"),
        "coloured": consult(history__color="permanent", history__weeks_since_color=8.0, history__known="no"),
        "resistant": consult(porosity="resistant", history__known="no"),
        "weak": consult(hair__elasticity="reduced"),
        "declined": consult(history__relaxer="hydroxide"),
        "set": consult(service="wet_set"),
    }
    return {name: plan_service(rulebook, head) for name, head in heads.items()}


def test_a_good_test_lets_the_head_follow_in_its_time(rulebook, tested):
    """The strands of the test stay out, and the limit stays the maker's."""
    found = revise(rulebook, tested["sound"], GOOD)
    assert (found.do, found.way, found.minutes) == ("go_on", "none", 8)
    assert found.excluded == tested["sound"].test_curls.zones != ()
    assert (found.strength, found.tools_mm, found.notes) == ("", {}, ())
    assert [one.decision for one in found.trace] == ["revise", "revise.way"]
    assert found.trace[0].row == "curl-and-hair-are-right"
    assert "The strands of the test are not processed again, whatever follows." in found.cautions


@given(seen=SEEN, name=st.sampled_from(("sound", "coloured", "resistant", "weak", "declined", "set")))
def test_nothing_goes_on_that_is_not_known_to_be_good(rulebook, tested, seen, name):
    """Over all that can be seen, on six heads."""
    plan, found = tested[name], revise(rulebook, tested[name], seen)
    if seen.hair in ("gum_like", "shedding") or seen.skin == "sore" or name in ("declined", "set"):
        assert found.do == "stop"
    if found.do == "go_on":
        assert replace(seen, minutes=8, longest_min=12, wet="right") == GOOD
        assert seen.minutes <= seen.longest_min
        assert found.minutes == seen.minutes
    else:
        assert found.minutes is None
    if found.way == "stronger":
        assert name == "sound"
        assert seen.hair == "sound"
        assert STRENGTHS.index(found.strength) == STRENGTHS.index(plan.lotion["strength"]) + 1
    if found.way == "milder":
        assert STRENGTHS.index(found.strength) == STRENGTHS.index(plan.lotion["strength"]) - 1
    assert bool(found.strength) == (found.do == "other_lotion")
    assert bool(found.tools_mm) == (found.do == "other_tool")
    assert found.excluded == plan.test_curls.zones
    assert found.words
    assert all(one.endswith(".") for one in (*found.words, *found.because))


def test_too_weak_takes_a_stronger_lotion_on_untreated_hair_only(rulebook, tested):
    """Coloured hair, and hair that had the strongest already, take a smaller tool."""
    weak = replace(GOOD, wet="weak", dry="weak")
    assert revise(rulebook, tested["sound"], weak).strength == "resistant"
    for name in ("coloured", "resistant"):
        found = revise(rulebook, tested[name], weak)
        assert (found.do, found.way) == ("other_tool", "smaller")
        assert all(found.tools_mm[zone] < one.diameter_mm for zone, one in tested[name].zones.items())


def test_too_tight_takes_the_next_larger_tool(rulebook, tested):
    """One size, of the shape that was planned."""
    found = revise(rulebook, tested["sound"], replace(GOOD, dry="too_tight"))
    assert (found.do, found.way) == ("other_tool", "larger")
    assert tested["sound"].zones["top"].diameter_mm == 11.1
    assert found.tools_mm["top"] == 12.7


def test_a_kit_without_the_next_size_says_so(rulebook, consult):
    """Nothing is made up."""
    head = replace(consult(history__known="no"), kit=Kit("one", (Tool(11.1, 13.8, 76, "concave", 90),)))
    found = revise(rulebook, plan_service(rulebook, head), replace(GOOD, dry="too_tight"))
    assert (found.do, found.tools_mm) == ("other_tool", {})
    assert found.notes == ("The kit has no next size for 9 of the zones.",)


def test_a_strength_beyond_the_mildest_is_not_made_up(rulebook, tested):
    """A local rule may call for a milder lotion where the mildest was tested."""
    table = rulebook.tables["revise"]
    harsh = next(row for row in table.rows if row.id == "harsh-from-the-mildest")
    rows = tuple(replace(row, then="other_lotion", say="") if row is harsh else row for row in table.rows)
    changed = rulebook.with_table(replace(table, rows=rows))
    plan = plan_service(changed, tested["weak"].consultation)
    found = revise(changed, plan, replace(GOOD, hair="harsh"))
    assert (found.do, found.way, found.strength) == ("other_lotion", "milder", "")
    assert found.notes == ("There is no such lotion beyond the one tested; the instructor decides.",)
    assert found.words == found.because == (harsh.because,)


def test_rows_that_agree_all_give_their_reason(rulebook, tested):
    """Sore skin on shedding hair stops for both."""
    found = revise(rulebook, tested["sound"], replace(GOOD, hair="shedding", skin="sore"))
    assert found.do == "stop"
    assert len(found.because) == len(found.words) == 2


def test_the_time_of_a_test_is_within_up_to_the_limit_itself(rulebook, tested):
    """A minute later it shows another service."""
    assert revise(rulebook, tested["sound"], replace(GOOD, minutes=12)).do == "go_on"
    assert revise(rulebook, tested["sound"], replace(GOOD, minutes=12.01)).do == "condition_and_wait"
    assert revise(rulebook, tested["sound"], replace(GOOD, longest_min=None)).do == "condition_and_wait"


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"minutes": -1}, "minutes must be 0 or more, got -1"),
        ({"minutes": float("nan")}, "minutes must be a number of minutes, got nan"),
        ({"longest_min": 0}, "longest_min must be more than 0, got 0"),
        ({"longest_min": float("inf")}, "longest_min must be a number of minutes, got inf"),
        ({"hair": "fine"}, "revise.hair must be one of sound, harsh, gum_like, shedding, unknown, got fine"),
    ],
)
def test_what_cannot_be_is_refused(rulebook, tested, change, message):
    """A slip of the caller is not taken for a harmless value."""
    with pytest.raises(ValueError, match=message):
        revise(rulebook, tested["sound"], replace(GOOD, **change))


def test_a_plan_made_with_other_rules_is_not_read(rulebook, tested):
    """What was planned then is perhaps not what would be planned now."""
    other = replace(rulebook, overlays=("some-school",))
    with pytest.raises(ValueError, match="plan again before reading the test curls"):
        revise(other, tested["sound"], GOOD)


@pytest.mark.parametrize(
    ("table", "when", "then", "limit"),
    [
        ("revise", {"revise.hair": "gum_like"}, "condition_and_wait", "gum-or-shedding-stops"),
        ("revise", {"revise.skin": "sore"}, "go_on", "sore-skin-stops"),
        ("revise", {"revise.hair": "harsh"}, "go_on", "harsh-hair-never-goes-on"),
        ("revise", {"revise.dry": "frizzy"}, "go_on", "frizz-never-goes-on"),
        ("revise", {"revise.wet": "unknown"}, "go_on", "wet-frizz-never-goes-on"),
        ("revise", {"revise.time": "over"}, "go_on", "test-over-its-time-never-goes-on"),
        ("revise", {"revise.skin": "unknown"}, "go_on", "unseen-skin-never-goes-on"),
        ("revise", {"verdict": "decline"}, "other_lotion", "no-working-plan-never-goes-on"),
        ("revise.way", {"hair.elasticity": "reduced"}, "stronger", "slow-spring-never-stronger"),
        ("revise.way", {"porosity.weakest": "porous"}, "stronger", "porous-hair-never-stronger"),
        ("revise.way", {"revise.hair": "harsh"}, "stronger", "harsh-hair-never-stronger"),
        ("revise.way", {"history.color": "semi"}, "stronger", "coloured-hair-never-stronger"),
        ("revise.way", {"perm.left": "part"}, "stronger", "old-perm-never-stronger"),
        ("revise.way", {"history.lightened": "highlights"}, "stronger", "lightened-hair-never-stronger"),
        ("revise.way", {"history.relaxer": "thio"}, "stronger", "straightened-hair-never-stronger"),
    ],
)
def test_a_local_rule_cannot_loosen_it(rulebook, table, when, *, then, limit):
    """Taken in place of every stricter row, it breaks a limit, and the proof says which."""
    one = rulebook.tables[table]
    conditions = {name: Condition((value,), (), value) for name, value in when.items()}
    loose = replace(one.rows[-1], id="local", when=conditions, then=then, also=(), set_by="school")
    changed = rulebook.with_table(replace(one, hit="first", rows=(loose, *one.rows)))
    proof = prove(changed, facts=FACTS, idle_is_fault=False)
    assert any(f"the limit {limit} is broken" in found.what for found in proof.problems)
