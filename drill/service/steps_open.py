"""Which steps of a service are open: a school's instructor signs at five stops, and bad test curls hold it.

Nothing ever holds up a rinse: lotion and neutraliser go on working while people wait for a signature.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

# What comes off has to come off, and a wet drape is changed, whoever still has to sign.
NEVER_HELD = frozenset({"soften_rinse", "rinse", "keep_drape", "last_rinse"})
TEST_CURLS = "test_curls"
# A reading of the test curls comes after this step; what it says goes for every step behind it.
_READ_AFTER = "test_curls_judge"
_GOES_ON = ("", "go_on")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenStep:
    """A step, and whether it may be taken now.

    Attributes:
        id: Its id in the plan.
        is_open: Whether it may be taken.
        waits_for: The stop whose sign-off is missing, ``test_curls`` where their reading holds it; empty
            for an open step.
    """

    id: str
    is_open: bool
    waits_for: str = ""


def open_steps(
    plan_steps: Sequence[Mapping[str, Any]],
    signed: Collection[str],
    *,
    student_mode: bool,
    test_curls_say: str = "",
) -> tuple[OpenStep, ...]:
    """Tell which steps are open.

    Args:
        plan_steps: Steps of a plan in the contract's form, each with ``id`` and ``sign_off`` (``none`` where
            it is no stop).
        signed: Stops that the instructor has signed.
        student_mode: Whether what comes after a stop waits until it is signed.
        test_curls_say: What the last reading of the test curls gave; empty where nothing was read.

    Returns:
        One for each step, in order. A stop is open, to be signed, once everything before it is; a rinse
        always is.

    Source:
        The five stops and that none of them delays a rinse: common practice.
    """
    found, waits_for = [], ""
    # A plan that asks for no test curls has no such step; a reading against going on then holds all of it.
    read = all(step["id"] != _READ_AFTER for step in plan_steps)
    for step in plan_steps:
        held = TEST_CURLS if read and test_curls_say not in _GOES_ON else waits_for
        if step["id"] in NEVER_HELD:
            held = ""
        found.append(OpenStep(id=step["id"], is_open=not held, waits_for=held))
        read = read or step["id"] == _READ_AFTER
        stop = step["sign_off"]
        if student_mode and not waits_for and stop != "none" and stop not in signed:
            waits_for = stop
    return tuple(found)


def stop_before(plan_steps: Sequence[Mapping[str, Any]], signed: Collection[str], *, stop: str) -> str:
    """Find what has to be signed before a stop.

    Args:
        plan_steps: Steps of a plan in the contract's form.
        signed: Stops that the instructor has signed.
        stop: A stop of the plan.

    Returns:
        The first stop before it that is not signed; empty where there is none.

    Source:
        common practice: each stop looks at what the one before let begin.
    """
    stops = [step["sign_off"] for step in plan_steps if step["sign_off"] != "none"]
    return next((one for one in stops[: stops.index(stop)] if one not in signed), "")
