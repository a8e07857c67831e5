"""The book: rules, wrong ideas and items in force for one school, ready to ask from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from drill.bank.blueprint import Blueprint
from drill.bank.item import Item
from drill.rulebook.overlay import Overlay
from drill.rulebook.rulebook import Rulebook
from drill.service.faults import Fault


@dataclass(frozen=True, kw_only=True)
class School:
    """What a school states of itself.

    Attributes:
        name: Its name.
        exam_date: Day of the theory exam (ISO date); empty where none is set.
        pass_mark: Share of the marks that passes, 0 to 1.
        student_mode: Whether what comes after a stop waits until the instructor has signed it.
        blueprint: Share of a mock exam by topic, 0 to 1, together 1; empty for the built-in shares.
    """

    name: str = ""
    exam_date: str = ""
    pass_mark: float = 0.75
    student_mode: bool = False
    blueprint: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Book:
    """Everything a student's device needs.

    Attributes:
        rulebook: The rules, local rules in force.
        misconceptions: Wrong ideas, in the order of their ids.
        items: In deck order.
        topics: Title by topic, in deck order.
        school: The school; empty fields where there is none.
        blueprint: How a mock exam is made up, where the school states nothing else.
        faults: What is seen after a service, with the causes of the hands and the clock.
    """

    rulebook: Rulebook
    misconceptions: tuple[Overlay, ...]
    items: tuple[Item, ...]
    topics: Mapping[str, str]
    school: School = School()
    blueprint: Blueprint = field(default_factory=Blueprint)
    faults: tuple[Fault, ...] = ()

    @cached_property
    def skills(self) -> Mapping[str, tuple[Item, ...]]:
        """The items of each decision to hold, in deck order."""
        found: dict[str, tuple[Item, ...]] = {}
        for item in self.items:
            found[item.skill] = (*found.get(item.skill, ()), item)
        return found

    @cached_property
    def topic_of(self) -> Mapping[str, str]:
        """The topic of each decision to hold."""
        return {skill: items[0].topic for skill, items in self.skills.items()}

    @cached_property
    def beliefs(self) -> Mapping[str, Overlay]:
        """The wrong ideas by id."""
        return {one.id: one for one in self.misconceptions}

    def fault(self, fault_id: str) -> Fault | None:
        """Find what is seen after a service by its id."""
        return next((fault for fault in self.faults if fault.id == fault_id), None)

    def item(self, item_id: str) -> Item | None:
        """Find an item by its id."""
        return next((item for item in self.items if item.id == item_id), None)
