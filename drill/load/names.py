"""The names that rows and limits may read, each with what it can be."""

from collections.abc import Collection, Mapping

from drill.rulebook.domain import Domain
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS


class Names:
    """Finds the domain of any name that a row may read.

    Args:
        domains: What a consultation states or the planner supplies.
        tables: The decisions.
        facts: Computed facts.
        lists: The decisions that give a list, which no row can read.
    """

    def __init__(
        self,
        domains: Mapping[str, Domain],
        tables: Mapping[str, Domain],
        facts: Mapping[str, Fact],
        *,
        lists: Collection[str] = (),
    ) -> None:
        self._found = {**domains, **tables, **{name: fact.domain for name, fact in facts.items()}}
        self.lists = lists

    @property
    def names(self) -> tuple[str, ...]:
        """Every name, for mends."""
        return tuple(self._found)

    def __call__(self, name: str) -> Domain | None:
        """Give the domain of a name, or None."""
        return self._found.get(name)


def names_of(rulebook: Rulebook, *, facts: Mapping[str, Fact] = FACTS) -> Names:
    """Give every name that a row of a rulebook, or of an overlay on it, may read."""
    decided = {name: rulebook.domain(name) for name in rulebook.tables}
    lists = [name for name, table in rulebook.tables.items() if table.hit == "collect"]
    return Names(rulebook.domains, {name: one for name, one in decided.items() if one}, facts, lists=lists)
