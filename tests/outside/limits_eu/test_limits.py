"""Label limits against published ones, exactly; see SOURCE.md."""

import csv
from pathlib import Path

import pytest

from drill.service.chemistry import label_faults, lotion_limits

ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))


def faults(row, value):
    """Hold a label against one bound, everything else well within."""
    usual = {"percent": 5.0, "ph": 8.0, row["what"]: float(value)}
    return label_faults(row["region"], row["kind"], use=row["use"], **usual)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: "-".join(row.values()))
def test_bound_itself_fits_and_what_lies_beyond_does_not(row):
    """Exact, and the fault names what was found."""
    assert faults(row, row["fits"]) == ()
    (fault,) = faults(row, row["not"])
    assert row["not"] in fault


@pytest.mark.parametrize("kind", ["thioglycolate_ester", "bromate"])
def test_what_canada_prohibits_never_fits(kind):
    """However little of it; the EU allows the ester, the panel bromate."""
    assert label_faults("Canada", kind, use="professional", percent=0.1, ph=7.5) == (
        "This substance is prohibited here.",
    )
    region = "EU" if kind == "thioglycolate_ester" else "CIR"
    assert label_faults(region, kind, use="professional", percent=5, ph=7.5) == ()


def test_salt_is_out_at_ph_6_5_and_the_ester_is_in():
    """Entry 2b begins at pH 6, entry 2a at 7."""
    salt, ester = (
        label_faults("EU", kind, use="general", percent=5, ph=6.5)
        for kind in ("thioglycolate", "thioglycolate_ester")
    )
    assert salt == ("pH 6.5 lies outside 7 to 9.5.",)
    assert ester == ()


def test_labels_of_the_eu_have_three_statements_and_the_ester_one_more():
    """The ester may sensitise, and says so."""
    salts, esters = lotion_limits("EU", "thioglycolate"), lotion_limits("EU", "thioglycolate_ester")
    assert [len(one.statements) for one in salts] == [3, 3]
    assert "Keep away from children." in salts[0].statements
    assert "For professional use only." in salts[1].statements
    assert all("May cause sensitisation by skin contact." in one.statements for one in esters)
    assert not any("May cause sensitisation by skin contact." in one.statements for one in salts)


def test_the_eu_is_stricter_than_the_panel():
    """11 against 15.4 %."""
    most = [lotion_limits(region, "thioglycolate")[-1].most_percent for region in ("EU", "CIR")]
    assert most == [11, 15.4]
