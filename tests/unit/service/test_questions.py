"""Answers that do not fit together are asked once more, and stop the service until they are."""

import pytest

from drill.service.plan import plan_service


def test_every_question_has_its_namesake_among_the_answers_that_do_not_fit(rulebook):
    """The same premise, the same reason; so a question that is shown always stops the service."""
    stops = {row.id: row for row in rulebook.tables["answers.fit"].rows if row.then == "no"}
    asked = {row.id: row for row in rulebook.tables["questions"].rows}
    assert set(stops) == set(asked)
    for name, row in asked.items():
        assert (row.when, row.because, row.source) == (
            stops[name].when,
            stops[name].because,
            stops[name].source,
        )
        assert row.say.rstrip().endswith((".", "?"))


@pytest.mark.parametrize(
    ("stated", "question"),
    [
        ({"history__weeks_since_color": 1.0}, "color_date"),
        ({"health__months_since": 3.0}, "treatment_date"),
        ({"history__weeks_since_relaxer": 20.0}, "relaxer_date"),
        ({"wish__part": "regrowth"}, "which_new_growth"),
    ],
)
def test_contradiction_asks_first_and_says_what(consult, rulebook, stated, question):
    """Nothing is planned, and no fact is missing."""
    plan = plan_service(rulebook, consult(**stated))
    assert [row.then for row in plan.questions] == [question]
    assert (plan.verdict, plan.zones, plan.steps, plan.ask_first) == ("ask_first", {}, (), ())
    assert "ask_again" in [row.then for row in plan.instead]


def test_missing_fact_is_asked_for_although_a_contradiction_stands(consult, rulebook):
    """What decides most is found as if the contradiction were cleared up."""
    plan = plan_service(
        rulebook,
        consult(health__months_since=3.0, history__weeks_since_color=1.0, hair__elasticity="unknown"),
    )
    assert [one.field for one in plan.ask_first] == ["hair.elasticity"]
    assert len(plan.questions) == 2


@pytest.mark.parametrize(
    "stated",
    [
        {"history__weeks_since_color": 4.0},
        {"health__months_since": 6.0},
        {"history__weeks_since_relaxer": 90.0},
        {"service": "wet_set", "history__weeks_since_color": 1.0},
    ],
)
def test_what_can_both_be_so_is_not_asked(consult, rulebook, stated):
    """A colour that washed out, a treatment half a year ago, hair that is cut off, a service with water."""
    plan = plan_service(rulebook, consult(**stated))
    assert (plan.verdict, plan.questions) == ("go", ())
