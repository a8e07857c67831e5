"""The printable card."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from drill.report.card import plan_card_html
from drill.report.card_timeline import timeline_html
from drill.report.card_zones import head_map_svg, zones_html
from drill.service.consultation import Consultation
from drill.service.plan import SIGN_OFFS, plan_service
from drill.service.zones import ZONE_NAMES, zone_label

USUAL = {
    "service": "perm", "hair.strand": "medium", "hair.density": "average", "hair.pattern": "straight",
    "hair.elasticity": "good", "hair.ends": "even", "history.known": "yes", "history.color": "none",
    "history.lightened": "none", "history.relaxer": "none", "history.smoothing": "no",
    "history.metallic_dye": "no", "history.weeks_since_perm": "never", "history.reaction": "no",
    "scalp": "healthy", "health.treatment": "none", "wish.curl": "medium", "wish.root_volume": "moderate",
    "wish.look": "waves",
}  # fmt: skip
HOSTILE = "</title><script>alert(1)</script>&amp;<img src=x onerror=y>\x1b\x00"
VOID = {"meta"}


class Reader(HTMLParser):
    """Reads a page: tags must close in order, ids be single."""

    def __init__(self, page):
        super().__init__()
        self.open, self.tags, self.ids, self.texts, self.attributes = [], [], [], [], []
        self.feed(page)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]
        self.ids += [value for name, value in attrs if name == "id"]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if "style" not in self.open:
            self.texts.append(data)

    @property
    def text(self):
        return " ".join(" ".join(self.texts).split())


@pytest.fixture
def plan_for(rulebook):
    def make(*, client="", length_mm=180.0, **stated):
        head = {**USUAL, **{name.replace("__", "."): value for name, value in stated.items()}}
        zones = {zone: {"hair.length": length_mm, "hair.porosity": "average"} for zone in ZONE_NAMES}
        return plan_service(rulebook, Consultation(head=head, zones=zones, client=client))

    return make


CASES = {
    "usual": {},
    "long": {"length_mm": 460.0},
    "fine": {"hair__strand": "fine", "hair__density": "thin"},
    "ringlets": {"wish__look": "ringlets", "length_mm": 380.0},
    "short": {"length_mm": 90.0, "wish__curl": "tight"},
    "test first": {"history__known": "no"},
    "part": {"wish__part": "top"},
    "practice": {"service": "practice_wrap"},
    "set": {"service": "wet_set"},
    "put off": {"scalp": "broken"},
    "ask first": {"hair__elasticity": "unknown", "history__relaxer": "unknown"},
    "declined": {"history__relaxer": "hydroxide"},
}
WORKING = [name for name in CASES if name not in ("put off", "ask first", "declined")]


@pytest.mark.parametrize("case", CASES)
def test_card_is_a_whole_page_that_fetches_nothing(plan_for, rulebook, case):
    """Tags close, ids are single, no scripts, no links, no pictures from elsewhere."""
    page = plan_card_html(plan_for(**CASES[case]), rulebook=rulebook)
    read = Reader(page)
    assert page.startswith("<!DOCTYPE html>")
    assert not {"script", "link", "img", "iframe", "a", "form", "object"} & set(read.tags)
    assert not {"src", "href", "onload", "style"} & set(read.attributes)
    assert len(set(read.ids)) == len(read.ids)
    assert not re.search(r"url\((?!#)|@import|http(?!://www.w3.org/2000/svg)", page)


@pytest.mark.parametrize("case", CASES)
def test_card_says_who_decides_and_what_to_do_when_it_goes_wrong(plan_for, case):
    """First aid comes before everything that is done; the practitioner, the maker and the law decide."""
    plan = plan_for(**CASES[case])
    text = Reader(plan_card_html(plan)).text
    assert "never permission" in text
    for word in ("licensed practitioner", "maker's directions", "local codes"):
        assert word in text
    for row in plan.first_aid:
        assert row.say in text
        assert not plan.steps or text.index(row.say) < text.index("In this order")
    for row in plan.cautions:
        told = {
            "sign_offs": "nothing goes past a stop unsigned",
            "longest_time": "longest time is the limit",
            "burn_or_eye": plan.first_aid[1].say if plan.first_aid else "",
        }
        assert row.say in text or told[row.then] in text


@pytest.mark.parametrize("case", WORKING)
def test_card_has_all_nine_sections_with_the_plans_counts(plan_for, rulebook, case):
    """In the table, and on the head."""
    plan = plan_for(**CASES[case])
    (table,) = re.findall(r"<table>.*</table>", plan_card_html(plan, rulebook=rulebook), flags=re.DOTALL)
    rows = {row.find("th").text: row for row in ET.fromstring(table).find("tbody")}
    assert list(rows) == [zone_label(name) for name in ZONE_NAMES]
    total = 0
    for name, zone in plan.zones.items():
        told = rows[zone_label(name)].find("td").text
        assert told == (" + ".join(f"{one.count} of {one.diameter_mm:g}" for one in zone.tools) or "left out")
        total += sum(int(count) for count in re.findall(r"(\d+) of", told))
    assert total == plan.totals.tools
    numbers = list(re.findall(r'text-anchor="middle"[^>]*>(\d+)</text>', plan_card_html(plan)))
    assert set(numbers) == {
        str(sum(share.count for share in zone.tools)) for zone in plan.zones.values() if zone.tools
    }


def test_card_shows_four_views_and_a_practice_head_without_a_whorl(plan_for):
    """Behind, above, left and right."""
    text = Reader(plan_card_html(plan_for())).text
    for title in ("From behind", "From above, face up", "Client's left", "Client's right"):
        assert title in text
    assert "whorl" in text
    assert "whorl" not in Reader(plan_card_html(plan_for(service="practice_wrap"))).text


def test_card_has_the_five_stops_as_boxes_for_time_and_initials(plan_for):
    """In the order of the steps."""
    page = plan_card_html(plan_for())
    stops = re.findall(r'<li class="stop">(.*?)</li>', page)
    assert len(stops) == len(SIGN_OFFS) == 5
    assert [re.match(r"STOP (\d: [a-z ]+)", stop)[1] for stop in stops] == [
        f"{number}: {name.replace('_', ' ')}" for number, name in enumerate(SIGN_OFFS.values(), start=1)
    ]
    assert all(">time</span>" in stop and ">initials</span>" in stop for stop in stops)


def test_card_leaves_room_for_the_makers_longest_time_where_there_is_lotion(plan_for):
    """And none in a set."""
    assert "Longest time, min" in plan_card_html(plan_for())
    assert "Longest time, min" not in plan_card_html(plan_for(service="wet_set"))
    assert "without waving lotion" in plan_card_html(plan_for(service="wet_set"))


def test_card_tells_of_test_curls_and_of_notes(plan_for):
    """Where they go; and what the plan had to settle."""
    plan = plan_for(history__known="no", appointment=240.0)
    text = Reader(plan_card_html(plan)).text
    assert plan.test_curls.needed
    assert "Test curls: before anything else" in text
    assert all(zone_label(zone) in text for zone in plan.test_curls.zones)
    assert plan.notes
    assert all(note in text for note in plan.notes)
    assert "Test curls: not needed" in Reader(plan_card_html(plan_for())).text


def test_a_service_that_is_not_done_says_why_what_to_ask_and_what_instead(plan_for):
    """And shows no head, no lotion, no steps."""
    plan = plan_for(hair__elasticity="unknown", history__relaxer="unknown")
    page = plan_card_html(plan)
    text = Reader(page).text
    assert plan.ask_first
    assert plan.instead
    for row in plan.verdict_reasons:
        assert row.because in text
    for one in plan.ask_first:
        assert one.ask in text
        assert one.because in text
    for row in (*plan.tests, *plan.instead):
        assert row.say in text
    assert page.count('<span class="answer">') == len(plan.ask_first)
    assert (
        text.index(plan.instead[0].say)
        < text.index("If something goes wrong")
        < text.index(plan.tests[0].say)
    )
    assert "<svg" not in page
    assert "Waving lotion" not in text
    assert 'class="verdict stopped"' in page


def test_answers_that_do_not_fit_are_asked_once_more(plan_for):
    """Where the plan has such."""
    plan = plan_for(scalp="broken")
    row = replace(plan.first_aid[0], say="Two answers cannot both be true.")
    assert row.say in plan_card_html(replace(plan, questions=(row,)))


def test_a_hostile_label_is_a_text(plan_for):
    """In the title, in the heading, and cut where it is endless."""
    page = plan_card_html(plan_for(client=HOSTILE))
    read = Reader(page)
    assert "script" not in read.tags
    assert "img" not in read.tags
    assert "</title><script>alert(1)</script>" in read.text
    assert "\x1b" not in page
    assert "\x00" not in page
    long = Reader(plan_card_html(plan_for(client="x" * 500)))
    assert "x" * 39 + "…" in long.text
    assert "x" * 41 not in long.text


def test_a_schools_own_words_stay_on_the_card(plan_for):
    """Even of a caution that the card says elsewhere."""
    plan = plan_for()
    own = replace(
        next(row for row in plan.cautions if row.then == "sign_offs"), say="Two teachers sign.", set_by="ours"
    )
    assert "Two teachers sign." in plan_card_html(replace(plan, cautions=(own,)))
    assert "Two teachers sign." not in plan_card_html(replace(plan, cautions=(replace(own, set_by=""),)))


def test_letters_get_smaller_as_the_text_grows(plan_for):
    """So that it stays one sheet."""
    plan = plan_for()
    sizes = []
    for notes in (0, 20, 60):
        page = plan_card_html(replace(plan, notes=("A note of some length for the chair.",) * notes))
        sizes.append(re.search(r'<main class="card (\w+)">', page)[1])
    assert sizes == ["tight", "tightest", "fullest"]
    assert '<main class="card roomy">' in plan_card_html(plan_for(service="practice_wrap"))


def test_card_tells_where_to_begin_and_when_to_look(plan_for):
    """As the plan has it; a plan without it is a card all the same."""
    plan = plan_for()
    text = Reader(plan_card_html(plan)).text
    assert f"Wind in this order: {zone_label(plan.handling.winding_order[0])}" in text
    assert f"Look after {plan.handling.look_out.first_min:g} min" in text
    assert "Look after" not in plan_card_html(plan_for(service="wet_set"))
    bare = plan_card_html(replace(plan, handling=None, tests=()))
    assert "Wind in this order" not in bare
    assert "Tests first" not in bare


def test_table_says_what_is_everywhere_alike_once(plan_for):
    """And keeps in columns what differs."""
    markup = zones_html(plan_for())
    assert "Everywhere: layout: straight set" in markup
    assert ">layout</th>" not in markup
    mixed = plan_for(hair__density="thin")
    assert ">line</th>" in zones_html(mixed)


def test_head_map_is_a_file_of_its_own(plan_for, rulebook):
    """With every tool where the plan has zones, else the bare head."""
    root = ET.fromstring(head_map_svg(plan_for(), rulebook=rulebook))
    about = root.find("{http://www.w3.org/2000/svg}desc").text
    assert all(f"{zone_label(name)}: " in about for name in ZONE_NAMES)
    assert "tools" not in head_map_svg(plan_for(scalp="broken"))
    mixed = plan_for(length_mm=460.0)
    assert any(len(zone.tools) > 1 for zone in mixed.zones.values())
    assert re.search(r">\d+ \+ \d+</text>", head_map_svg(mixed))


def test_line_of_phases_has_minutes_and_the_stops_between_them(plan_for):
    """Each stop right after the phase that it ends; the sum and the pace above."""
    plan = plan_for()
    page = plan_card_html(plan)
    line = re.search(r'<div class="line">(.*?)</div>', page)[1]
    told = re.findall(r"<strong>(\d+)</strong> ([a-z ]+)<|class=\"halt\">(\d)<", line)
    assert [int(minutes) for minutes, _, _ in told if minutes] == [one.minutes for one in plan.phases]
    before = {stop: told[at - 1][1] for at, (_, _, stop) in enumerate(told) if stop}
    assert before == {
        "1": "before",
        "2": "winding",
        "3": "lotion on",
        "4": "lotion works",
        "5": "neutraliser",
    }
    assert f"Minutes to plan for, {plan.totals.minutes} in all at a beginner&#x27;s pace" in page or (
        f"Minutes to plan for, {plan.totals.minutes} in all at a beginner's pace" in page
    )


def test_line_of_phases_of_a_set_has_no_stops_and_a_declined_service_has_no_line(plan_for):
    """Nothing to sign, or nothing to do."""
    page = plan_card_html(plan_for(service="wet_set"))
    assert '<section class="time">' in page
    assert '"halt"' not in page
    assert "in black, the stops" not in page
    assert '<section class="time">' not in plan_card_html(plan_for(scalp="broken"))
    assert timeline_html(plan_for(scalp="broken")) == ""
