"""What a check says of the questions: shares, gaps with their place, and items that ask nothing."""

from drill.bank.asked import Asked, Gap, Share
from drill.bank.item import Item
from drill.basis.problem import Place
from drill.report.check_text import CheckReport, check_to_plain, put_check
from drill.report.page import Page

ASKED = Asked(
    silent=(Item(id="mute", topic="t", kind="choose", stem="?", place=Place("mine.yaml", 3, 5)),),
    shares=(
        Share(what="row", asked=2, count=3),
        Share(what="misconception", asked=1, count=1),
        Share(what="zone", asked=8, count=9),
        Share(what="limit", asked=0, count=1),
    ),
    gaps=(
        Gap(what="row", name="cut/one", place=Place("cut.yaml", 4, 5), scenario=True),
        Gap(what="row", name="cut/two", place=Place("cut.yaml", 9, 5)),
        Gap(what="zone", name="top"),
        Gap(what="limit", name="never-so", place=Place("limits.yaml", 2, 5)),
    ),
)


def test_gaps_are_told_with_their_place_and_their_mend():
    """A row that a scenario can ask is told apart from one for a fact."""
    page = Page(width=100)
    put_check(page, CheckReport(asked=ASKED))
    text = " ".join(page.text.split())
    assert "2 of 3 rows are asked, 66.6 %" in text
    assert "cut.yaml:4:5: cut/one; a scenario can ask it" in text
    assert "cut.yaml:9:5: cut/two; let a fact name it under 'about'" in text
    assert "8 of 9 zones are asked" in text
    assert "0 of 1 safety limits are at stake in a question, 0 %" in text
    assert "limits.yaml:2:5: never-so" in text
    assert "Items of which no question could be made: 1 - mine.yaml:3:5: mute" in text


def test_gaps_are_written_for_other_programs():
    """Names of their own; what was there before stays."""
    plain = check_to_plain(CheckReport(asked=ASKED))["asked"]
    assert plain["percent"] == {"rows": 66.67, "misconceptions": 100.0, "zones": 88.89, "limits": 0.0}
    assert plain["counts"]["zones"] == {"asked": 8, "of": 9}
    assert plain["not_asked"]["rows"][0] == {
        "name": "cut/one",
        "place": "cut.yaml:4:5",
        "as_scenario": True,
    }
    assert plain["not_asked"]["limits"] == [{"name": "never-so", "place": "limits.yaml:2:5"}]
    assert plain["items_without_question"] == ["mute"]
    assert check_to_plain(CheckReport())["asked"] is None
