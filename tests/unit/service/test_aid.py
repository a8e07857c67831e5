"""First-aid cards: there without anything else, and of one mind with the plan."""

from drill.service.aid import BEFORE, CARDS, FORMAT, aid_card, aid_to_plain


def test_cards_and_table_say_the_same(rulebook):
    """Each row of the plan's first aid has its card, in the same words."""
    rows = {row.then: row.say for row in rulebook.tables["first_aid"].rows}
    told = {one.row: " ".join((one.signs, *one.do)) for one in CARDS}
    assert told | {"know_the_sheet": " ".join(BEFORE)} == rows


def test_a_card_is_found_however_it_is_typed():
    """Capitals and blanks do not matter; an unknown name finds none."""
    assert aid_card(" EYE ") is CARDS[0]
    assert [aid_card(one.id) for one in CARDS] == list(CARDS)
    assert aid_card("ear") is None


def test_cards_defer_to_those_who_know():
    """The eye is rinsed for at least 15 minutes (common practice); sheet and emergency services are named."""
    plain = aid_to_plain()
    assert plain["format"] == FORMAT
    assert [one["id"] for one in plain["cards"]] == [one.id for one in CARDS]
    assert "at least 15 minutes" in plain["cards"][0]["do"][0]
    flat = str(plain)
    assert all(
        words in flat for words in ("product's sheet", "emergency services", "poison centre", "instructor")
    )
    assert aid_to_plain((CARDS[1],))["cards"] == [plain["cards"][1]]
