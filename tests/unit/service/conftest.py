"""Heads to decide on."""

import pytest

from drill.service.consultation import Consultation
from drill.service.zones import ZONE_NAMES

USUAL = {
    "service": "perm",
    "hair.strand": "medium",
    "hair.density": "average",
    "hair.pattern": "straight",
    "hair.elasticity": "good",
    "hair.ends": "even",
    "history.known": "yes",
    "history.color": "none",
    "history.lightened": "none",
    "history.relaxer": "none",
    "history.smoothing": "no",
    "history.metallic_dye": "no",
    "history.weeks_since_perm": "never",
    "history.reaction": "no",
    "scalp": "healthy",
    "health.treatment": "none",
    "wish.curl": "medium",
    "wish.root_volume": "moderate",
    "wish.look": "waves",
}


@pytest.fixture(scope="session")
def consult():
    """Make a head that is fit for a perm; what is stated is laid over it, dots written as two underlines."""

    def make(length_mm=180.0, porosity="average", growth=None, **stated):
        head = {**USUAL, **{name.replace("__", "."): value for name, value in stated.items()}}
        zones = {zone: {"hair.length": length_mm, "hair.porosity": porosity} for zone in ZONE_NAMES}
        for zone, value in (growth or {}).items():
            zones[zone]["hair.growth"] = value
        return Consultation(head=head, zones=zones)

    return make
