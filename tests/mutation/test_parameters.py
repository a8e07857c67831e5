"""Each parameter would be missed: set otherwise, some case as written decides, counts or times otherwise."""

from collections.abc import Iterator
from dataclasses import replace

from case_figures import figures_of
from mutants import Tally
from written_cases import CASES, Case, decide_case, differences, head_of

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook


class _Read(dict):
    """Parameters' values that remember which of them somebody asked for."""

    def __init__(self, values) -> None:
        super().__init__(values)
        self.names: set[str] = set()

    def __getitem__(self, name):
        self.names.add(name)
        return super().__getitem__(name)

    def __contains__(self, name) -> bool:
        self.names.add(name)
        return super().__contains__(name)

    def get(self, name, default=None):
        self.names.add(name)
        return super().get(name, default)


def _readers(rulebook: Rulebook) -> dict[str, list[Case]]:
    """Name for each parameter the cases that read it; the others cannot notice, so they need not be asked."""
    found: dict[str, list[Case]] = {name: [] for name in rulebook.parameters}
    for case in CASES:
        watched = replace(rulebook)
        watched.__dict__["values"] = read = _Read(rulebook.values)
        _notices(case, watched)
        for name in read.names & set(found):
            found[name].append(case)
    # A case that sets a parameter itself has values of its own.
    setting = [case for case in CASES if "under" in case.fields]
    return {name: [*cases, *setting] for name, cases in found.items()}


def _others(parameter: Parameter) -> Iterator[Value]:
    """Give values that a local rule could set: the other named ones, or both ends of the range."""
    ends = parameter.choices or (parameter.low, parameter.high)
    yield from (value for value in ends if value is not None and value != parameter.value)


def _notices(case: Case, rulebook: Rulebook) -> bool:
    found = []
    try:
        head = head_of(case, rulebook)
        for decision in case.stated("expect"):
            table = rulebook.tables.get(decision)
            found += differences(case, decide_case(case, head, decision), table)
        return bool(found) or figures_of(case, rulebook) != case.stated("figures")
    except UndecidedError:
        return True


def test_no_parameter_can_be_set_otherwise_unnoticed(rulebook):
    """Both ends of its range, or each other named value."""
    made, unnoticed = 0, []
    readers = _readers(rulebook)
    for parameter in rulebook.parameters.values():
        for value in _others(parameter):
            made += 1
            changed = replace(parameter, value=value)
            under = replace(rulebook, parameters={**rulebook.parameters, parameter.name: changed})
            if not any(_notices(case, under) for case in readers[parameter.name]):
                unnoticed.append((parameter, value))
    found = Tally(made, tuple(f"{one.place}: {one.name} is {value}" for one, value in unnoticed))
    print(f"parameters set otherwise: {found}")
    assert not unnoticed, str(found)
