"""Times of loading, proving and opening the whole rulebook; no time is asserted, the results are."""

from datetime import date

import pytest

from drill.load.compile import compile_book
from drill.load.open import open_book
from drill.load.rulebook import load_rulebook
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.service.facts import FACTS
from drill.store.book import read_book, write_book

DAY = date(2026, 11, 25)


def test_load_the_rulebook_from_yaml(benchmark):
    """Every file, every fault."""
    loaded, problems = benchmark(load_rulebook)
    assert problems == []
    assert len(loaded.tables) > 15


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_prove_the_rulebook(benchmark, rulebook):
    """Complete, of use, within the limits, on every head."""
    proof = benchmark(prove, rulebook, facts=FACTS)
    assert (proof.problems, proof.idle_rows) == ((), ())


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_refuse_a_rule_that_loosens_a_limit(benchmark, rulebook):
    """What an instructor waits for who wrote it."""
    change = Change(op="remove", target="verdict", at=rulebook.tables["verdict"].rows[3].id)
    overlay = Overlay(id="ours", kind="local_rule", because="b", source="c", changes=(change,))
    proof = benchmark(prove, apply(rulebook, overlay), facts=FACTS, idle_is_fault=False)
    assert any("is broken" in one.what for one in proof.problems)


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_compile_the_book(benchmark):
    """Rules, wrong ideas and question sets."""
    compiled = benchmark(compile_book, day=DAY, proved=True)
    assert compiled.problems == ()


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_open_the_compiled_book(benchmark, book, tmp_path):
    """What a phone does at every start."""
    write_book(tmp_path / "book.json", book)
    assert benchmark(read_book, tmp_path / "book.json") == book


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_open_the_book_where_nothing_has_changed(benchmark, tmp_path):
    """What the terminal does at every start: digest of all files, then the copy."""
    open_book(None, day=DAY, cache=tmp_path)
    opened, problems = benchmark(open_book, None, day=DAY, cache=tmp_path)
    assert (bool(opened.items), problems) == (True, ())
