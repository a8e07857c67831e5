"""What would be seen, and what differs between two outcomes."""

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.bank.beliefs import Beliefs
from drill.bank.item import Item
from drill.bank.scenario import draw_head
from drill.basis.plain import from_plain, to_plain
from drill.rulebook.evaluate import UndecidedError
from drill.service.head import Head
from drill.service.outcome import Outcome, differences, predict

SEEDS = st.integers(min_value=0, max_value=10_000)


@pytest.fixture(scope="module")
def beliefs(book):
    """For each wrong idea the rulebook of someone who holds it."""
    return Beliefs(book).rulebooks


def drawn(rulebook, seed):
    """Draw a head that could sit in the chair."""
    item = Item(id="any", topic="", kind="choose", stem="")
    return draw_head(item, None, rulebook, random.Random(seed))


def seen(rulebook, head, zone="top"):
    """Predict one zone."""
    return predict(Head(rulebook, head), zones=(zone,)).zones[zone]


@given(seed=SEEDS)
def test_a_right_plan_never_uses_more_lotion_than_the_hair_bears(rulebook, seed):
    """What the planner chooses and what the outcome fears are two pieces of code; they must agree."""
    outcome = predict(Head(rulebook, drawn(rulebook, seed)))
    assert outcome.done
    assert {zone.lotion for zone in outcome.zones.values()} <= {"right", "weak"}
    assert all(zone.stress <= 1 and zone.ends == "smooth" for zone in outcome.zones.values())


@given(seed=SEEDS)
def test_the_middle_of_a_strand_lies_between_its_ends_and_its_scalp_end(rulebook, seed):
    """On any wrap; two weeks later every curl is larger."""
    for zone in predict(Head(rulebook, drawn(rulebook, seed))).zones.values():
        assert zone.today.ends_mm - 1e-9 <= zone.today.middle_mm <= zone.today.scalp_mm + 1e-9
        assert zone.later.middle_mm > zone.today.middle_mm
        assert zone.gap_weeks >= 0


@given(seed=SEEDS)
def test_an_outcome_does_not_differ_from_itself(rulebook, seed):
    """Nothing to say; and it goes through JSON unchanged."""
    outcome = predict(Head(rulebook, drawn(rulebook, seed)))
    assert differences(outcome, outcome) == ()
    assert from_plain(Outcome, to_plain(outcome)) == outcome


def test_a_service_that_is_stopped_has_no_zones(consult, rulebook):
    """And what is said depends on which of the two outcomes is done."""
    stopped = predict(Head(rulebook, consult(scalp="broken")))
    done = predict(Head(rulebook, consult()))
    assert (stopped.done, dict(stopped.zones)) == (False, {})
    (one,) = differences(stopped, done)
    assert (one.zone, one.what) == ("head", "service")
    assert one.words == "The service is done, although this hair or skin should not have it."
    assert differences(done, stopped)[0].words == "The client goes home without the service."
    assert differences(stopped, stopped) == ()


def test_off_base_with_an_11_mm_tool_looks_like_four_weeks_of_growth(consult, rulebook):
    """11.1 mm at 367 micrometres a day are 30 days; the everyday base shows half of that."""
    close, usual = (seen(rulebook, consult(wish__root_volume=wish)) for wish in ("low", "moderate"))
    assert close.gap_mm == pytest.approx(11.1)
    assert close.gap_weeks == pytest.approx(11.1 / 0.367 / 7)
    assert usual.gap_mm == pytest.approx(close.gap_mm / 2)
    assert (close.lift, usual.lift) == (0, 1)


def test_lift_on_sound_hair_costs_some_pull_and_saves_the_gap(consult, rulebook):
    """The words tell both."""
    high = predict(Head(rulebook, consult(wish__root_volume="high")), zones=("top",))
    usual = predict(Head(rulebook, consult()), zones=("top",))
    assert (high.zones["top"].lift, high.zones["top"].stress, high.zones["top"].gap_mm) == (2, 1, 0)
    words = {one.what: one.words for one in differences(usual, high)}
    assert words == {
        "gap": "The curl begins right at the scalp.",
        "lift": "The hair stands up at the scalp.",
        "stress": "The hair is pulled at the scalp.",
    }
    back = {one.what: one.words for one in differences(high, usual)}
    assert back["stress"] == "The hair is pulled less at the scalp."
    assert back["gap"].startswith("5.5 mm at the scalp stay straight; it looks like 2 weeks")


def test_ringlets_hang_in_coils_of_one_size_and_waves_open_toward_the_scalp(consult, rulebook):
    """The spiral's ends and scalp end are of one size."""
    coils = predict(Head(rulebook, consult(length_mm=250.0, wish__look="ringlets")), zones=("top",))
    waves = predict(Head(rulebook, consult(length_mm=190.0)), zones=("top",))
    curl = coils.zones["top"].today
    assert curl.ends_mm == curl.middle_mm == curl.scalp_mm
    assert waves.zones["top"].today.scalp_mm > waves.zones["top"].today.ends_mm
    assert "It hangs in coils of one size, not in waves." in {one.words for one in differences(waves, coils)}
    assert any(one.words.startswith("It lies in waves") for one in differences(coils, waves))


def test_a_double_wrap_starts_anew_in_the_middle(consult, rulebook):
    """The middle of the strand is the first turn of the tool at the scalp."""
    curl = seen(rulebook, consult(length_mm=400.0, wish__curl="tight")).today
    assert curl.middle_mm == curl.ends_mm < curl.scalp_mm


@pytest.mark.parametrize(("length_mm", "form"), [(180.0, "curl"), (75.0, "wave"), (20.0, "none")])
def test_turns_make_a_curl_a_wave_or_nothing(consult, rulebook, length_mm, form):
    """Two and a half turns a curl, one and a half a wave; common practice."""
    zone = seen(rulebook, consult(length_mm=length_mm, wish__curl="body" if form == "wave" else "tight"))
    bounds = {"curl": (2.5, 99), "wave": (1.5, 2.5), "none": (0, 1.5)}[form]
    assert zone.form == form
    assert bounds[0] <= zone.turns < bounds[1]


def test_a_lost_curl_is_told(consult, rulebook):
    """From hair too short for the tool."""
    curl, none = (predict(Head(rulebook, consult(length_mm=one)), zones=("top",)) for one in (180.0, 20.0))
    assert "It comes out as no wave." in {one.words for one in differences(curl, none)}


def test_a_wet_set_is_undone_by_the_next_wash(consult, rulebook):
    """No curl in two weeks, and no lotion."""
    zone = seen(rulebook, consult(service="wet_set"))
    assert (zone.later, zone.lotion, zone.papers, zone.ends) == (None, "none", "none", "smooth")


def test_long_heavy_hair_opens_further(consult, rulebook):
    """By the share for its weight."""
    values = rulebook.values
    for stated, factor in (
        ({"hair__density": "thick"}, values["outcome.heavy_ratio"]),
        ({"hair__strand": "coarse"}, values["outcome.heavy_ratio"]),
        ({}, 1),
    ):
        zone = seen(rulebook, consult(length_mm=300.0, **stated))
        ratio = zone.later.middle_mm / zone.today.middle_mm
        assert ratio == pytest.approx(values["outcome.two_weeks_ratio"] * factor)


def believed(beliefs, rulebook, belief, head):
    """Give the outcome of the rules and that of someone who holds a wrong idea, on one head."""
    right = Head(rulebook, head)
    return predict(right), predict(Head(beliefs[belief], head), hair=right)


def test_weak_hair_on_base_is_feared_for_though_the_idea_denies_it(consult, beliefs, rulebook):
    """Two pulls and the weakness of the hair; what hair is does not change with what is believed."""
    right, other = believed(
        beliefs,
        rulebook,
        "volume-is-always-on-base",
        consult(wish__root_volume="high", hair__elasticity="reduced", growth={"top": "whorl"}),
    )
    assert (right.zones["top"].stress, other.zones["top"].stress) == (0, 3)
    words = {(one.zone, one.words) for one in differences(right, other)}
    assert ("top", "The hair is pulled at the scalp and can break off there.") in words


def test_straight_rows_show_on_thin_hair(consult, beliefs, rulebook):
    """Bricklay hides them."""
    right, other = believed(beliefs, rulebook, "bricklay-is-for-thick-hair", consult(hair__density="thin"))
    assert (right.zones["top"].part_lines, other.zones["top"].part_lines) == (0, 1)
    assert "It shows faint parting lines." in {one.words for one in differences(right, other)}


def test_bases_two_tools_deep_overload_the_tool(consult, beliefs, rulebook):
    """Lines show, lift goes, the curl is uneven."""
    right, other = believed(beliefs, rulebook, "twice-the-base-is-quicker", consult())
    found = {one.what: one.words for one in differences(right, other) if one.zone == "top"}
    assert found["evenness"] == "There is too much hair on each tool, so weak places lie among firm ones."
    assert found["lift"] == "The hair lies close to the head."
    assert found["curl"].startswith("The curl is larger: ")


def test_folded_paper_loses_layered_ends(consult, beliefs, rulebook):
    """They slip out; with no paper at all they bend."""
    right, other = believed(beliefs, rulebook, "folded-paper-holds-any-ends", consult(hair__ends="layered"))
    assert "Some ends slip out of the paper and stand off." in {
        one.words for one in differences(right, other)
    }
    assert other.zones["top"].papers == "pass"


def test_every_difference_of_every_idea_has_words(beliefs, rulebook):
    """On many heads no idea breaks the prediction, and each of the things that can differ is met."""
    met = set()
    for seed in range(8):
        head = drawn(rulebook, seed)
        right = Head(rulebook, head)
        expected = predict(right, zones=("top", "left_side", "nape_center"))
        for changed in beliefs.values():
            try:
                other = predict(Head(changed, head), hair=right, zones=tuple(expected.zones))
            except UndecidedError:
                continue
            found = differences(expected, other)
            assert all(one.words[0].isupper() or one.words[0].isdigit() for one in found)
            assert all(one.words.endswith(".") and "{" not in one.words for one in found)
            met |= {one.what for one in found}
    assert met >= {"service", "curl", "hangs", "falls", "gap", "lift", "stress", "part_lines", "ends"}


def test_each_state_of_the_lotion_is_told(consult, rulebook):
    """Made by hand: no built-in idea changes the strength."""
    right = predict(Head(rulebook, consult()), zones=("top",))
    told = {
        state: differences(right, replace(right, zones={"top": replace(right.zones["top"], lotion=state)}))
        for state in ("right", "weak", "too_much", "none")
    }
    assert told["right"] == ()
    assert len({told[state][0].words for state in ("weak", "too_much", "none")}) == 3
    assert "frizzy dry" in told["too_much"][0].words


def with_strength(rulebook, strength):
    """Put one strength in force for every head."""
    table = rulebook.tables["waving_lotion.strength"]
    row = replace(table.rows[-1], then=strength, also=())
    return rulebook.with_table(replace(table, rows=(row,)))


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ({}, {"treated": "right", "normal": "right", "resistant": "too_much"}),
        ({"porosity": "resistant"}, {"treated": "weak", "normal": "right", "resistant": "right"}),
        ({"hair__strand": "coarse"}, {"treated": "right", "normal": "right", "resistant": "right"}),
        ({"porosity": "porous"}, {"treated": "right", "normal": "too_much", "resistant": "too_much"}),
        (
            {"history__color": "permanent", "history__weeks_since_color": 6.0},
            {"treated": "right", "normal": "too_much"},
        ),
        ({"history__color": "semi", "history__weeks_since_color": 6.0}, {"resistant": "too_much"}),
        ({"history__weeks_since_perm": 30.0}, {"treated": "right", "normal": "too_much"}),
        ({"hair__elasticity": "reduced"}, {"treated": "right", "normal": "too_much"}),
    ],
)
def test_lotion_is_weighed_against_what_the_hair_bears(consult, rulebook, stated, told):
    """The weakest place decides what is too much, closed hair what is weak; common practice."""
    head = consult(**stated)
    right = Head(rulebook, head)
    for strength, state in told.items():
        done = Head(with_strength(rulebook, strength), head)
        assert predict(done, hair=right, zones=("top",)).zones["top"].lotion == state


@pytest.mark.parametrize(
    ("pattern", "words"),
    [
        ("straight", "It stays straight, as it is."),
        ("wavy", "It keeps its own wave."),
        ("curly", "It keeps its own curl."),
        ("coily", "It keeps its own coil."),
        ("unknown", "It stays as it is."),
    ],
)
def test_hair_that_a_part_leaves_out_keeps_what_it_has_by_nature(consult, rulebook, pattern, words):
    """A nape perm winds nape and border; the rest shows no curl of a tool, and both ways round it is told."""
    whole = predict(Head(rulebook, consult(hair__pattern=pattern, wish__curl="tight")))
    nape = predict(Head(rulebook, consult(hair__pattern=pattern, wish__curl="tight", wish__part="nape")))
    left_out = {"top", "left_side", "right_side"}
    assert set(nape.as_it_was) == left_out == set(whole.zones) - set(nape.zones)
    assert set(nape.as_it_was.values()) == {pattern}
    told = {one.zone: one.words for one in differences(whole, nape) if one.what == "part"}
    assert told == dict.fromkeys(left_out, words)
    back = {one.zone: one.words for one in differences(nape, whole) if one.what == "part"}
    assert back == dict.fromkeys(left_out, "It is waved, although it was to stay as it is.")
    assert differences(nape, nape) == ()
    assert from_plain(Outcome, to_plain(nape)) == nape


def test_zones_that_only_one_outcome_looked_at_are_not_compared(consult, rulebook):
    """Nothing is known of the other."""
    head = Head(rulebook, consult(wish__part="nape"))
    assert differences(predict(head, zones=("top", "nape_center")), predict(head, zones=("nape_left",))) == ()


def test_a_stopped_service_leaves_nothing_out(consult, rulebook):
    """It is not done at all."""
    assert predict(Head(rulebook, consult(wish__part="nape", scalp="broken"))).as_it_was == {}


def layered(head, shortest_mm):
    """Lay layers on a head."""
    return replace(
        head, zones={name: {**zone, "hair.shortest": shortest_mm} for name, zone in head.zones.items()}
    )


def test_shortest_strands_decide_the_form_and_both_are_shown_where_they_differ(consult, rulebook):
    """Long hair with short layers: the lengths curl, the layers only wave."""
    even = predict(Head(rulebook, consult(length_mm=180.0)), zones=("top",))
    layers = predict(Head(rulebook, layered(consult(length_mm=180.0), 30.0)), zones=("top",))
    zone = layers.zones["top"]
    assert (zone.form, zone.form_longest) == ("wave", "curl")
    assert 1.5 <= zone.turns_shortest < 2.5 <= zone.turns
    (told,) = (one.words for one in differences(even, layers) if one.what == "form")
    assert told == "The longest strands come out as a curl, the shortest as a wave and no curl."
    assert {one.words for one in differences(layers, even) if one.what == "form"} == {
        "It comes out as a curl."
    }
    assert even.zones["top"].turns_shortest == even.zones["top"].turns
