"""Labels held against what a region allows."""

import pytest

from drill.service.label import KINDS, REGIONS, USES, label_faults, lotion_limits

ALL = [one for region in REGIONS for kind in KINDS for one in lotion_limits(region, kind)]


def test_each_limit_has_a_bound_or_prohibits_and_names_its_source():
    """And no two hold for the same use."""
    assert len(ALL) == 11
    for one in ALL:
        assert one.prohibited != (one.most_percent > 0)
        assert one.source
        assert (one.lowest_ph is None) == (one.highest_ph is None)
    keys = [(one.region, one.kind, use) for one in ALL for use in one.uses]
    assert len(set(keys)) == len(keys)
    assert {use for _, _, use in keys} == set(USES)


def test_a_limit_that_is_not_held_is_no_permission():
    """It says where to look instead."""
    assert lotion_limits("EU", "bromate") == ()
    assert label_faults("EU", "bromate", use="general", percent=1) == (
        "No limit of this region is held here; read the local code.",
    )


def test_every_fault_of_a_label_is_told():
    """Too much and too alkaline; and a pH that is limited must be stated."""
    assert label_faults("EU", "thioglycolate", use="general", percent=9, ph=10) == (
        "9 % is more than the 8 % allowed, counted as thioglycolic acid.",
        "pH 10 lies outside 7 to 9.5.",
    )
    assert label_faults("EU", "thioglycolate", use="general", percent=8) == (
        "The pH is not stated, and here it is limited.",
    )
    assert label_faults("EU", "thioglycolate", use="general", percent=8.0001, ph=8)[0].startswith("8.0001 %")


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"region": "Mars"}, "region must be one of EU, CIR, Canada, got Mars"),
        ({"kind": "water"}, "kind must be one of thioglycolate"),
        ({"use": "home"}, "use must be one of general, professional, got home"),
        ({"percent": -1}, "percent must be 0 or more, got -1"),
        ({"percent": float("nan")}, "percent must be 0 or more, got nan"),
    ],
)
def test_what_cannot_be_is_refused(change, message):
    """With what is known."""
    asked = {"region": "EU", "kind": "thioglycolate", "use": "general", "percent": 1, **change}
    with pytest.raises(ValueError, match=message):
        label_faults(asked.pop("region"), asked.pop("kind"), **asked)
