"""What one local rule changes: rows, decisions on a sample of heads, questions, and ideas that come true."""

import random
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice

from drill.bank.book import Book
from drill.bank.differences import Difference, Example, Planned, example
from drill.bank.heads import heads_for_row
from drill.bank.impact import ItemChange, ItemDraws, RowChange, row_changes
from drill.bank.item import Item
from drill.bank.sample import sample_heads
from drill.bank.true_ideas import ideas_come_true
from drill.rulebook.boxes import Work
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Overlay, apply, assemble, fits
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import Space
from drill.service.consultation import Consultation
from drill.service.facts import FACTS

MOST_EXAMPLES = 3
_HEADS_A_ROW = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleImpact:
    """What one local rule changes, with the ones before it in force.

    Attributes:
        rule: Its id.
        because: Why it is in force.
        source: Where it stands.
        since: In force from this day; empty for always.
        until: No longer in force from this day; empty for without end.
        rows: What it touches.
        heads: Heads compared.
        changed: Heads on which something is decided otherwise.
        decisions: On how many of the heads each decision is another.
        examples: Some heads before and after; where the sample has none, heads on which its rows decide.
        items: Items whose key changes.
        ambiguous: Items that have a second right answer now.
        undecidable: Items of which a head is left without a key.
        true_ideas: Wrong ideas that are true now.
    """

    rule: str
    because: str
    source: str
    since: str
    until: str
    rows: tuple[RowChange, ...]
    heads: int
    changed: int
    decisions: Mapping[str, int]
    examples: tuple[Example, ...]
    items: tuple[ItemChange, ...]
    ambiguous: tuple[str, ...]
    undecidable: tuple[str, ...]
    true_ideas: tuple[str, ...]

    @property
    def per_hundred(self) -> float:
        """Of a hundred heads, on how many something changes."""
        return 100 * self.changed / self.heads


class Impacts:
    """Finds what local rules change; heads are drawn and planned once for all of them.

    Args:
        book: The book, the local rules in force.
        built_in: The rules without them.
        facts: Computed facts by name.
    """

    def __init__(self, book: Book, built_in: Rulebook, *, facts: Mapping[str, Fact] = FACTS) -> None:
        self._book, self._facts, self._built_in = book, facts, built_in
        self._heads = sample_heads(built_in)
        self._draws = ItemDraws(book, built_in, facts=facts)
        self._planned: dict[tuple[str, ...], tuple[Planned, ...]] = {}
        self._work = Work()

    def of_all(self, rules: Sequence[Overlay]) -> tuple[ItemChange, ...]:
        """Find the items whose answer the local rules in force change together."""
        changes = self._draws.changes(self._built_in, self._book.rulebook, rules=rules)
        return tuple(one for one in changes if one.changed)

    def of_each(self, rules: Sequence[Overlay], *, day: date) -> tuple[RuleImpact, ...]:
        """Find what each local rule changes, those among them that come into force later.

        Args:
            rules: The local rules in their order.
            day: Today; rules that ended before are passed over.

        Returns:
            One a rule, each against the rules before it that are in force with it.
        """
        today = day.isoformat()
        found = []
        for at, rule in enumerate(rules):
            first = date.fromisoformat(max(today, rule.since))
            before, _ = assemble(self._built_in, rules[:at], day=first)
            if rule.in_force(first) and fits(before, rule):
                found.append(self._of(rule, before))
        return tuple(found)

    def _of(self, rule: Overlay, before: Rulebook) -> RuleImpact:
        after = apply(before, rule)
        differing = [
            (head, differences)
            for head, was, now in zip(self._heads, self._plans(before), self._plans(after), strict=True)
            if (differences := tuple(was.differences(now)))
        ]
        counted = Counter(name for _, ones in differing for name in {one.decision for one in ones})
        shown = differing or list(self._beside_the_sample(rule, before, after))
        ideas = [one for one in self._book.misconceptions if one.changes]
        true_ideas = ideas_come_true(
            ideas, self._heads, before=before, after=after, changed=counted.keys(), facts=self._facts
        )
        items = self._draws.changes(before, after, rules=(rule,))
        return RuleImpact(
            rule=rule.id,
            because=rule.because,
            source=rule.source,
            since=rule.since,
            until=rule.until,
            rows=row_changes(before, (rule,)),
            heads=len(self._heads),
            changed=len(differing),
            decisions=dict(sorted(counted.items(), key=lambda one: (-one[1], one[0]))),
            examples=_examples(after, rule, shown),
            items=tuple(one for one in items if one.changed),
            ambiguous=_ambiguous(self._book.items, items, true_ideas),
            undecidable=tuple(one.item for one in items if one.undecided),
            true_ideas=true_ideas,
        )

    def _plans(self, rulebook: Rulebook) -> tuple[Planned, ...]:
        if rulebook.overlays not in self._planned:
            self._planned[rulebook.overlays] = tuple(
                Planned(rulebook, head, facts=self._facts) for head in self._heads
            )
        return self._planned[rulebook.overlays]

    def _beside_the_sample(
        self, rule: Overlay, before: Rulebook, after: Rulebook
    ) -> Iterator[tuple[Consultation, tuple[Difference, ...]]]:
        """Look for heads on which a rule's own rows decide, for a rule that is about rare ones."""
        rng = random.Random(rule.id)  # noqa: S311  a sample needs no secret
        space = Space(after, facts=self._facts, work=self._work)
        for change in rule.changes:
            if change.row is None or change.target not in after.tables:
                continue
            table = after.tables[change.target]
            row = table.row(change.row.id)
            drawn = heads_for_row(space, table, row, rng) if row else iter(())
            for head, _ in islice(drawn, _HEADS_A_ROW):
                was, now = (Planned(one, head, facts=self._facts) for one in (before, after))
                differences = tuple(was.differences(now))
                if differences:
                    yield head, differences


def _ambiguous(
    items: Iterable[Item], changes: Iterable[ItemChange], true_ideas: Sequence[str]
) -> tuple[str, ...]:
    """Name the items with two right answers: one became acceptable, or a written wrong one became true."""
    doubled = {one.item for one in changes if one.doubled}
    written = {item.id for item in items if any(wrong.misconception in true_ideas for wrong in item.wrong)}
    return tuple(item.id for item in items if item.id in doubled | written)


def _examples(
    rulebook: Rulebook, rule: Overlay, differing: Sequence[tuple[Consultation, tuple[Difference, ...]]]
) -> tuple[Example, ...]:
    """Choose heads that show most: decisions that the rule is about first, and each change but once."""
    about = {change.target for change in rule.changes}
    told = [
        (head, min(differences, key=lambda one: one.decision not in about)) for head, differences in differing
    ]
    told.sort(key=lambda one: one[1].decision not in about)
    first = {(one.decision, one.before, one.after): (head, one) for head, one in reversed(told)}
    chosen = list(reversed(first.values()))
    chosen += [one for one in told if one not in chosen]
    return tuple(example(rulebook, head, one) for head, one in chosen[:MOST_EXAMPLES])
