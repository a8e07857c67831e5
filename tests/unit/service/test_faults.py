"""From what is seen back to its causes."""

from dataclasses import replace

import pytest

from drill.bank.beliefs import Beliefs
from drill.load.faults import load_faults
from drill.rulebook.evaluate import UndecidedError
from drill.service.faults import SHOWN, Fault, KnownCause, faults_between, find_causes
from drill.service.head import Head
from drill.service.outcome import predict

ASKED = {
    "fish_hooks", "no_curl_at_ends", "dent_at_scalp", "breakage_at_scalp", "parting_lines", "gap_at_scalp",
    "too_tight", "too_loose", "frizzy_dry_curly_at_scalp", "weak_all_over", "uneven", "straight_between",
    "redness_at_hairline", "smell_stays",
}  # fmt: skip


@pytest.fixture(scope="module")
def faults(rulebook):
    """The faults by id."""
    found, problems = load_faults(rulebook)
    assert not problems, [str(one) for one in problems]
    return {one.id: one for one in found}


@pytest.fixture(scope="module")
def beliefs(book):
    """For each wrong idea the rulebook of someone who holds it."""
    return Beliefs(book).rulebooks


def test_every_fault_has_causes_and_each_one_shown_is_among_them(faults):
    """A fault that an outcome can show is carried by some decision."""
    assert set(faults) >= ASKED
    assert set(SHOWN) <= set(faults)
    assert all(one.causes for one in faults.values())
    assert {name for name, one in faults.items() if one.carried_by} == set(SHOWN)


def test_a_gap_at_the_scalp_is_traced_to_where_the_tool_sat(faults, beliefs, rulebook, consult):
    """Off base where the plan says half off base; then the hands, in the order written."""
    fault = faults["gap_at_scalp"]
    found = find_causes(fault, consult(), rulebook, beliefs=beliefs, zone="top")
    first = next(one for one in found if one.done == "off_base")
    assert (first.kind, first.decision, first.planned) == ("decision", "base_control", "half_off_base")
    assert first.zones == ("top",)
    assert "gap-at-the-scalp-is-growth" in first.beliefs
    assert first.words == (
        "top: Off base: held 45° short of straight out, where the plan says: "
        "Half off base: held straight out."
    )
    hands = [one for one in found if one.kind == "hands"]
    assert [one.words for one in hands] == [one.cause for one in fault.causes]
    assert list(found[-len(hands) :]) == hands


def test_what_shows_least_besides_comes_first(faults, beliefs, rulebook, consult):
    """The cause that explains this fault and nothing else fits best."""
    for fault in faults.values():
        found = find_causes(fault, consult(), rulebook, beliefs=beliefs)
        others = [one.other_faults for one in found if one.kind == "decision"]
        assert others == sorted(others)


def test_every_cause_found_does_show_the_fault(faults, beliefs, rulebook, consult):
    """Each idea named is run again and looked at."""
    head = consult(hair__density="thin", hair__ends="layered", wish__root_volume="high")
    right, met = Head(rulebook, head), 0
    expected = predict(right)
    for fault in faults.values():
        for cause in find_causes(fault, head, rulebook, beliefs=beliefs):
            for belief in cause.beliefs:
                done = Head(beliefs[belief], head)
                shown = faults_between(right, expected, predict(done, hair=right))
                assert set(cause.zones) <= set(shown[fault.id])
                met += 1
    assert met > 20


def test_a_tool_too_large_is_named_by_its_diameter(faults, beliefs, rulebook, consult):
    """A size is read in millimetres, not as a word of the tables."""
    found = find_causes(
        faults["too_loose"], consult(hair__pattern="wavy"), rulebook, beliefs=beliefs, zone="top"
    )
    (one,) = [one for one in found if "twice-as-wide-for-every-wave" in one.beliefs]
    assert (one.planned, one.decision) == (11.1, "tool.size")
    assert one.done == 19.0
    assert "mm tool, where the plan says: 11.1 mm tool." in one.words


@pytest.mark.parametrize(
    ("stated", "fault"),
    [
        ({"history__relaxer": "hydroxide"}, "breakage_along_lengths"),
        ({"history__relaxer": "hydroxide"}, "breakage_at_scalp"),
        ({"scalp": "broken"}, "redness_at_hairline"),
        ({"history__reaction": "yes"}, "itching_after_a_day"),
    ],
)
def test_a_service_that_should_not_have_been_done_is_named(
    faults, beliefs, rulebook, consult, *, stated, fault
):
    """The verdict is the cause, and the whole head the place."""
    found = find_causes(faults[fault], consult(**stated), rulebook, beliefs=beliefs)
    causes = [one for one in found if one.kind == "decision"]
    assert causes
    assert {(one.decision, one.zones) for one in causes} == {("verdict", ("head",))}
    assert all(one.done in ("go", "test_first") for one in causes)
    assert all(one.planned not in ("go", "test_first") for one in causes)


def test_hair_is_not_blamed_on_the_skin_nor_skin_on_the_hair(faults, beliefs, rulebook, consult):
    """A broken scalp does not break lengths."""
    found = find_causes(faults["breakage_along_lengths"], consult(scalp="broken"), rulebook, beliefs=beliefs)
    assert {one.kind for one in found} == {"hands"}


def with_row(rulebook, table, **change):
    """Put one row in force for every head."""
    one = rulebook.tables[table]
    return rulebook.with_table(replace(one, rows=(replace(one.rows[-1], **change),)))


def test_a_lotion_too_strong_or_too_weak_is_named(faults, rulebook, consult):
    """Made by hand: no built-in idea changes the strength."""
    strong = {"strong": with_row(rulebook, "waving_lotion.strength", then="resistant", also=())}
    weak = {"weak": with_row(rulebook, "waving_lotion.strength", then="treated", also=())}
    found = find_causes(faults["frizzy_dry_curly_at_scalp"], consult(), rulebook, beliefs=strong)
    assert (found[0].planned, found[0].done, found[0].beliefs) == ("normal", "resistant", ("strong",))
    closed = consult(porosity="resistant")
    found = find_causes(faults["weak_all_over"], closed, rulebook, beliefs=weak)
    assert (found[0].planned, found[0].done, len(found[0].zones)) == ("resistant", "treated", 9)


def test_ends_without_curl_are_traced_to_one_tool_for_too_much_hair(faults, rulebook, consult):
    """Long hair on a single tool: the inner turns stay dry."""
    ideas = {"one-tool": with_row(rulebook, "wrap", then="croquignole", also=())}
    head = consult(length_mm=400.0, wish__curl="tight")
    found = find_causes(faults["no_curl_at_ends"], head, rulebook, beliefs=ideas)
    assert (found[0].decision, found[0].planned, found[0].done) == ("wrap", "double_tool", "croquignole")


def test_the_best_fit_of_several_ideas_counts(faults, rulebook, consult):
    """In whichever order they come."""
    alone = with_row(rulebook, "base_control", then="off_base", also=())
    with_lines = with_row(alone, "base_size", then="double", also=())
    for ideas in ({"alone": alone, "more": with_lines}, {"more": with_lines, "alone": alone}):
        found = find_causes(faults["gap_at_scalp"], consult(), rulebook, beliefs=ideas, zone="top")
        assert found[0].beliefs == tuple(ideas)
        assert (found[0].done, found[0].other_faults) == ("off_base", 0)


def test_a_change_that_does_not_carry_the_fault_is_no_cause(faults, rulebook, consult):
    """A deeper base is named for the gap only where it is the base that changed."""
    fault = Fault(id="gap_at_scalp", seen="flat", carried_by=("papers",))
    ideas = {"off": with_row(rulebook, "base_control", then="off_base", also=())}
    assert find_causes(fault, consult(), rulebook, beliefs=ideas) == ()
    both = {"off": with_row(ideas["off"], "papers", then="double_flat", then_from="value", also=())}
    (one,) = find_causes(fault, consult(), rulebook, beliefs=both, zone="top")
    assert one.decision == "papers"


def test_an_idea_that_leaves_a_decision_open_explains_nothing(faults, rulebook, consult):
    """It is passed over."""
    table = rulebook.tables["base_control"]
    undecided = rulebook.with_table(replace(table, rows=()))
    head = consult()
    with pytest.raises(UndecidedError):
        predict(Head(undecided, head))
    found = find_causes(faults["gap_at_scalp"], head, rulebook, beliefs={"open": undecided})
    assert {one.kind for one in found} == {"hands"}


def test_declining_a_client_shows_no_fault(rulebook, consult):
    """There is nothing to see."""
    head = consult()
    right = Head(rulebook, head)
    nothing = predict(Head(rulebook, consult(scalp="broken")))
    assert faults_between(right, predict(right), nothing) == {}


def test_faults_of_a_file_are_told_with_place_and_mend(rulebook, tmp_path):
    """Unknown decision, twins, missing source."""
    path = tmp_path / "faults.yaml"
    path.write_text(
        "faults:\n"
        "  - id: hooks\n"
        "    seen: bent\n"
        "    carried_by: [paper]\n"
        "    causes:\n"
        "      - {id: one, cause: A., mend: B., source: common practice}\n"
        "      - {id: one, cause: A., mend: B., source: hearsay}\n"
        "  - id: hooks\n"
        "    seen: bent\n"
        "    causes:\n"
        "      - {id: two, cause: A., mend: B., source: memory}\n"
    )
    found, problems = load_faults(rulebook, path=path)
    assert [one.id for one in found] == ["hooks"]
    assert found[0].causes[0] == KnownCause(
        id="one", cause="A.", mend="B.", source="common practice", place=found[0].causes[0].place
    )
    told = [str(one).removeprefix(str(path)) for one in problems]
    assert told[0] == ":4:17: there is no decision 'paper'; did you mean 'papers'?"
    assert told[1].startswith(f":7:9: one stands twice, first at {path}:6:9")
    assert told[2].startswith(":7:")
    assert "hearsay" in told[2]
    assert told[3].startswith(f":8:5: hooks stands twice, first at {path}:2:5")


def test_a_file_that_is_not_there_is_a_problem(rulebook, tmp_path):
    """Not a traceback."""
    found, problems = load_faults(rulebook, path=tmp_path / "no.yaml")
    assert found == ()
    assert "cannot read the file" in problems[0].what


def test_what_is_wound_and_was_to_be_left_out_is_not_taken_for_a_fault_of_its_winding(consult, rulebook):
    """There is no right winding of it to hold it against."""
    right = Head(rulebook, consult(wish__part="nape"))
    whole = predict(Head(rulebook, consult()))
    assert faults_between(right, predict(right), whole) == {}
