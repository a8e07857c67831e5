"""A rulebook: vocabulary, tables, parameters, limits and sources, as one value."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from drill.basis.plain import to_plain
from drill.basis.problem import Place
from drill.rulebook.domain import Domain, Value
from drill.rulebook.limit import Limit
from drill.rulebook.parameter import Parameter
from drill.rulebook.table import Table


@dataclass(frozen=True, kw_only=True)
class Rulebook:
    """Everything that the tables know.

    Attributes:
        domains: What a consultation can state or the planner supplies, by name.
        tables: The decisions, by name.
        parameters: By name.
        limits: The safety limits.
        sources: Published works by key: one line of title, edition, year and place each.
        overlays: Ids of the local rules in force, in order.
    """

    domains: Mapping[str, Domain]
    tables: Mapping[str, Table]
    parameters: Mapping[str, Parameter]
    limits: tuple[Limit, ...] = ()
    sources: Mapping[str, str]
    overlays: tuple[str, ...] = ()

    @cached_property
    def digest(self) -> str:
        """Sixteen hexadecimal digits that change when anything but a place changes."""
        text = json.dumps(to_plain(self, without=Place), sort_keys=True, ensure_ascii=True)
        return hashlib.sha256(text.encode()).hexdigest()[:16]

    @cached_property
    def values(self) -> Mapping[str, Value]:
        """The parameters' values by name."""
        return {name: one.value for name, one in self.parameters.items()}

    def domain(self, name: str) -> Domain | None:
        """Give the domain of an entered name or of a decision.

        Args:
            name: Dotted name.

        Returns:
            Its domain; None for a computed fact, which belongs to the engine, and for an unknown name.
        """
        if name in self.domains:
            return self.domains[name]
        table = self.tables.get(name)
        if table is None:
            return None
        return Domain(
            name=name,
            values=table.gives,
            per=table.per,
            counts_as=table.counts_as,
            words=table.words,
            place=table.place,
        )

    def built_in(self, name: str, value: str) -> str:
        """Give the built-in value that a value counts as; itself, unless a local rule added it."""
        # Asked in every section of every plan, so no domain is made for a table here.
        named = self.domains.get(name) or self.tables.get(name)
        return named.counts_as.get(value, value) if named else value

    def counted(self, name: str, value: Value) -> Value:
        """Give what facts and limits take a value for: what it counts as, where a local rule added it.

        Args:
            name: An entered name, a decision or a fact.
            value: Its value.

        Returns:
            A built-in value; a number as it is.
        """
        held = self.domains.get(name) or self.tables.get(name)
        if held is None or not held.counts_as or not isinstance(value, str):
            return value
        return held.counts_as.get(value, value)

    def local_words(self, name: str, value: Value) -> str:
        """Give what people call a value that a local rule added; empty for any other."""
        domain = self.domain(name)
        return domain.words.get(str(value), "") if domain else ""

    def with_table(self, table: Table) -> "Rulebook":
        """Give the rulebook with one table in place of its namesake."""
        return replace(self, tables={**self.tables, table.decision: table})
