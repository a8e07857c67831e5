"""Heads to load against."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.rulebook.domain import Domain
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation

SOUND = b"""
service: perm
scalp: healthy
hair: {length: 20 cm, strand: medium, density: average, pattern: straight, porosity: average}
hair.elasticity: good
hair.ends: even
history: {known: yes, color: none, lightened: none, relaxer: none, smoothing: no, reaction: no}
history.metallic_dye: no
history.weeks_since_perm: never
health.treatment: none
wish: {curl: medium, root_volume: moderate, look: waves}
"""


@pytest.fixture
def sound_head(rulebook: Rulebook) -> Callable[..., Consultation]:
    """Give a head that nothing speaks against, with one value changed everywhere if asked."""
    (node,), problems = read_text(SOUND, shown="sound.yaml")
    sound = read_consultation(node, rulebook, problems, folder=Path())
    assert not problems
    assert sound is not None

    def make(domain: Domain | None = None, value: str = "") -> Consultation:
        if domain is None:
            return sound
        if domain.per == "head":
            return replace(sound, head={**sound.head, domain.name: value})
        return replace(sound, zones={zone: {**one, domain.name: value} for zone, one in sound.zones.items()})

    return make
