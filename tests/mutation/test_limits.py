"""Each limit refuses a rulebook that makes an exception for just the heads that it speaks of.

Most exceptions break other limits as well, for what may hurt someone is said more than once; here each limit
is asked alone.
"""

from dataclasses import replace

from broken_limits import broken, duties, refused_by
from mutants import Tally


def test_the_rulebook_keeps_every_limit(rulebook):
    """What is refused below is refused for its exception."""
    assert refused_by(rulebook, rulebook.limits) == set()


def test_each_limit_refuses_what_breaks_it(rulebook):
    """Outcome by outcome, of all that the limits forbid and demand."""
    made = duties(rulebook)
    assert {duty.limit.id for duty in made} == {limit.id for limit in rulebook.limits}
    unnoticed = tuple(
        str(duty)
        for duty in made
        if not any(refused_by(one, (duty.alone,)) for one in broken(rulebook, duty))
    )
    found = Tally(len(made), unnoticed)
    print(f"what limits forbid and demand: {found}")
    assert found.percent == 100, str(found)


def test_an_exception_that_tightens_is_not_refused(rulebook):
    """The other way round: off base at the nape is an exception too, and keeps every limit."""
    duty = next(one for one in duties(rulebook) if one.limit.id == "nape-never-on-base")
    (looser,) = broken(rulebook, duty)
    assert "nape-never-on-base" in refused_by(looser, rulebook.limits)
    (tighter,) = broken(rulebook, replace(duty, value="off_base"))
    assert refused_by(tighter, rulebook.limits) == set()
