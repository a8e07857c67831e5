"""Make a question of an item: draw a head, let the planner decide, let wrong ideas decide otherwise."""

import random
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, replace

from drill.bank.beliefs import Beliefs
from drill.bank.facts import head_facts
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.item import Item
from drill.bank.question import Feedback, Option, Question
from drill.bank.scenario import draw_head, draw_zone
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError, decide
from drill.rulebook.fact import Fact
from drill.rulebook.table import Table
from drill.rulebook.trace import Decision
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import TOOL_DIAMETER, Head
from drill.service.kit import tools_of_shape
from drill.service.plan import WORKING
from drill.service.wording import value_words, zone_words

MOST_DRAWS = 120
FEWEST_WRONG = 2
MOST_OPTIONS = 4
LETTERS = "abcde"
# What is decided before a service may start, so that a head is asked about that is not fit for it.
_BEFORE = ("verdict", "hair.condition", "test_curls.needed", "tests")


@dataclass(frozen=True, slots=True)
class Draw:
    """A head on which an item can be asked.

    Attributes:
        head: The head.
        zone: The zone asked, or None.
        decided: The planner's decision.
        wrong: Wrong values with the ideas that give them.
    """

    head: Head
    zone: str | None
    decided: Decision
    wrong: Mapping[Value, tuple[str, ...]]


class QuestionMaker:
    """Makes questions of a book's items.

    Args:
        beliefs: The book's wrong ideas at work.
        facts: Computed facts by name.
    """

    def __init__(self, beliefs: Beliefs, *, facts: Mapping[str, Fact] = FACTS) -> None:
        self.beliefs, self.book, self._facts = beliefs, beliefs.book, facts

    def make(self, item: Item, seed: int) -> Question | None:
        """Make a question.

        Args:
            item: An item of the book.
            seed: Any number; the same item, seed and rulebook give the same question on every machine.

        Returns:
            The question; None where no head was found on which the item can be asked.
        """
        rng = random.Random(f"{item.id} {seed}")  # noqa: S311  a question needs no secret
        if not item.decision:
            return self._fact(item, seed, rng)
        drawn = self.draw(item, rng)
        return None if drawn is None else self._scenario(item, seed, drawn, rng)

    def draw(self, item: Item, rng: random.Random) -> Draw | None:
        """Draw heads until one is met on which the item can be asked.

        Args:
            item: A scenario item.
            rng: The seed's generator.

        Returns:
            The first head on which the item's row decides and two wrong ideas decide differently, each to a
            value that is neither right nor acceptable; None after :data:`MOST_DRAWS` tries.
        """
        for _ in range(MOST_DRAWS):
            zone = draw_zone(item, rng)
            consultation = draw_head(item, zone, self.book.rulebook, rng)
            head = Head(self.book.rulebook, consultation, facts=self._facts)
            decided = self._decided(item, head, zone)
            if decided is None:
                continue
            wrong = self._wrong(item, consultation, zone, decided)
            if len(wrong) >= FEWEST_WRONG:
                return Draw(head, zone, decided, wrong)
        return None

    def _decided(self, item: Item, head: Head, zone: str | None) -> Decision | None:
        """Decide, and keep only what the item wants to ask: its row, decisive, on a head that is served."""
        if item.decision not in _BEFORE and head.decide("verdict").value not in WORKING:
            return None
        decided = head.decide(item.decision, zone)
        if item.row and decided.row != item.row:
            return None
        table = self.book.rulebook.tables.get(item.decision)
        return decided if table is None or self._is_decisive(table, decided) else None

    def _is_decisive(self, table: Table, decided: Decision) -> bool:
        """Tell whether the answer, or what is acceptable beside it, would be another without the row."""
        if table.hit == "strictest":
            return self._is_alone(table, decided)
        rows = tuple(row for row in table.rows if row.id != decided.row)
        try:
            without = decide(replace(table, rows=rows), decided.read, parameters=self.book.rulebook.values)
        except (UndecidedError, KeyError):
            return True
        return (without.value, set(without.also)) != (decided.value, set(decided.also))

    def _is_alone(self, table: Table, decided: Decision) -> bool:
        """Tell whether no other row is as strict, those aside that only repeat another decision."""
        tables = self.book.rulebook.tables
        others = [
            row for row in decided.rows if row.id != decided.row and not tables.keys() & row.when.keys()
        ]
        return all(table.strictness(row.then) < table.strictness(str(decided.value)) for row in others)

    def _wrong(
        self, item: Item, consultation: Consultation, zone: str | None, decided: Decision
    ) -> dict[Value, tuple[str, ...]]:
        reached = self.beliefs.reached(consultation, item.decision, zone)
        refused = {decided.value, *decided.also}
        about = self._names_of_row(decided)
        return {
            value: tuple(sorted(ideas, key=lambda idea: not self._is_about(idea, about)))
            for value, ideas in reached.items()
            if value not in refused
        }

    def _names_of_row(self, decided: Decision) -> Set[str]:
        table = self.book.rulebook.tables.get(decided.decision)
        row = table.row(decided.row) if table else None
        return row.when.keys() - {"service", "zone"} if row else set()

    def _is_about(self, idea: str, names: Set[str]) -> bool:
        """Tell whether a wrong idea turns on the very facts that decide: then it is the likelier one."""
        changes = self.book.beliefs[idea].changes
        return any(change.row is not None and names & change.row.when.keys() for change in changes)

    def _scenario(self, item: Item, seed: int, drawn: Draw, rng: random.Random) -> Question:
        consultation, decided = drawn.head.consultation, drawn.decided
        key = _single(decided)
        values = sorted(drawn.wrong, key=lambda value: (-len(drawn.wrong[value]), str(value)))
        chosen: list[Value] = values[: MOST_OPTIONS - 1]
        chosen += self._fillers(drawn, taken=(key, *decided.also, *chosen))[: MOST_OPTIONS - 1 - len(chosen)]
        options = [
            _option(
                value_words(item.decision, value),
                value,
                correct=False,
                ideas=drawn.wrong.get(value, ()),
                feedback=feedback_on_wrong(
                    drawn.head,
                    decided,
                    value,
                    tuple(self.book.beliefs[one] for one in drawn.wrong.get(value, ())),
                    look=item.look,
                ),
            )
            for value in chosen
        ]
        right = feedback_on_key(drawn.head, decided, look=item.look)
        options.append(_option(value_words(item.decision, key), key, correct=True, ideas=(), feedback=right))
        return Question(
            item=item.id,
            skill=item.skill,
            topic=item.topic,
            kind=item.kind,
            seed=seed,
            facts=head_facts(drawn.head, drawn.zone),
            ask=say(item.stem, zone=zone_words(drawn.zone)),
            consultation=consultation,
            decision=item.decision,
            zone=drawn.zone,
            options=_lettered(options, rng),
            explanation=right.text,
            source=decided.source,
            rulebook=self.book.rulebook.digest,
        )

    def _fillers(self, drawn: Draw, *, taken: Sequence[Value]) -> list[Value]:
        """Give further values of the decision, for when wrong ideas run out."""
        decision = drawn.decided.decision
        table = self.book.rulebook.tables.get(decision)
        if table is not None and table.hit == "strictest":
            return []  # more care than is needed would stand there as a mistake
        if table is not None:
            return [value for value in table.gives if value not in taken and value != "unknown"]
        if decision != TOOL_DIAMETER or drawn.zone is None:
            return []
        key = float(str(drawn.decided.value))
        kit = drawn.head.consultation.kit
        sizes = {tool.diameter_mm for tool in tools_of_shape(kit, drawn.head.choice(drawn.zone).tool.shape)}
        # The sizes next to the key would be a quarrel, not a mistake.
        others = sorted(sizes - set(taken), key=lambda size: abs(size - key))
        return list(others[2:])

    def _fact(self, item: Item, seed: int, rng: random.Random) -> Question:
        right = Feedback(decides=say(item.because), look=say(item.look))
        options = [_option(say(item.answer), item.answer, correct=True, ideas=(), feedback=right)]
        for wrong in item.wrong:
            belief = self.book.beliefs.get(wrong.misconception)
            feedback = Feedback(
                opening=say("Stop.") if belief and belief.harm else "",
                decides=say(item.because),
                seen=say(belief.seen) if belief else "",
                look=say(belief.mend) if belief else say(item.look),
            )
            ideas = (wrong.misconception,) if belief else ()
            options.append(
                _option(say(wrong.text), wrong.text, correct=False, ideas=ideas, feedback=feedback)
            )
        return Question(
            item=item.id,
            skill=item.skill,
            topic=item.topic,
            kind=item.kind,
            seed=seed,
            facts=(),
            ask=say(item.stem),
            consultation=None,
            decision=None,
            zone=None,
            options=_lettered(options, rng),
            explanation=right.text,
            source=item.source,
            rulebook=self.book.rulebook.digest,
        )


def _single(decided: Decision) -> Value:
    if isinstance(decided.value, tuple):
        raise TypeError(f"{decided.decision} is a list and has no single key")
    return decided.value


def _option(text: str, value: Value, *, correct: bool, ideas: tuple[str, ...], feedback: Feedback) -> Option:
    return Option(id="", text=text, value=value, correct=correct, misconceptions=ideas, feedback=feedback)


def _lettered(options: list[Option], rng: random.Random) -> tuple[Option, ...]:
    """Shuffle options and give them their letters; numbers stand in rising order instead."""
    if all(isinstance(option.value, float) for option in options):
        options.sort(key=lambda option: float(option.value))
    else:
        rng.shuffle(options)
    return tuple(replace(option, id=letter) for option, letter in zip(options, LETTERS, strict=False))
