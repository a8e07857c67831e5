"""Vague answers of clients."""

from drill.service.client_words import _VAGUE, vague_words


def test_every_field_is_one_of_the_consultation(rulebook):
    """And is asked for there; each question back is a question."""
    for field in _VAGUE:
        assert rulebook.domains[field].ask
        vague = vague_words(field)
        assert vague.says.endswith(".")
        assert "?" in vague.ask_back


def test_safety_facts_that_a_client_can_only_tell_have_one(rulebook):
    """What is felt on the hair is no matter of words."""
    told = {name for name, one in rulebook.domains.items() if one.safety and one.ask}
    assert told - set(_VAGUE) == {"hair.porosity", "hair.elasticity"}
    assert vague_words("hair.elasticity") is None
