"""What touches do on the lotion screen: set the longest time, start the clock, say what is seen."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from drill.app.screen import Screen
from drill.app.show_lotion import MOST_MIN, Lotion, lotion_screen
from drill.rulebook.rulebook import Rulebook
from drill.service.watch import at_minute, begin_watch, look

_SECONDS_A_MINUTE = 60


class LotionFlow:
    """Lotion on a head, from its longest time to the rinse.

    Args:
        rulebook: The rules in force.
        clock: Gives the time, aware.
    """

    def __init__(self, rulebook: Rulebook, *, clock: Callable[[], datetime]) -> None:
        self.lotion: Lotion | None = None
        self.is_open = False
        self._rulebook, self._clock = rulebook, clock
        self._start = clock()
        self._shown: tuple[int, bool] = (-1, False)

    @property
    def minute(self) -> float:
        """Minutes since the last tool had its lotion."""
        return max(0.0, (self._clock() - self._start).total_seconds() / _SECONDS_A_MINUTE)

    def screen(self) -> Screen:
        """Give the screen as things stand at this minute."""
        lotion, minute = self._now()
        self._shown = self._seen_state(lotion, minute)
        return lotion_screen(self._rulebook, lotion, minute=minute)

    def has_changed(self) -> bool:
        """Tell whether the clock alone has changed what is to be shown.

        At the longest time the screen comes to the front, whatever was done meanwhile.
        """
        lotion, minute = self._now()
        if lotion.watch is not None and lotion.watch.is_over and not self.is_open:
            self.is_open = True
            return True
        return self.is_open and lotion.watch is not None and self._seen_state(lotion, minute) != self._shown

    def do(self, verb: str, what: str) -> None:
        """Do what a touch asks for.

        Args:
            verb: The action's first part.
            what: Its second part; may be empty.

        Raises:
            ValueError: If no lotion screen has such an action.
        """
        lotion, minute = self._now()
        match verb:
            case "lotion":
                self.is_open = True
            case "lotion_leave":
                self.is_open = False
            case "lotion_longest":
                longest = min(max(lotion.longest_min + int(what), 0), MOST_MIN)
                self.lotion = replace(lotion, longest_min=longest)
            case "lotion_on":
                self._start = self._clock()
                self.lotion = replace(
                    lotion, watch=begin_watch(self._rulebook, longest_min=float(lotion.longest_min))
                )
            case "lotion_end":
                self.lotion, self.is_open = None, False
            case _:
                self._see(lotion, minute, verb, what)

    def _see(self, lotion: Lotion, minute: float, verb: str, what: str) -> None:
        if lotion.watch is None or lotion.watch.is_over:
            raise ValueError(f"no lotion is watched for the action {verb}")
        picked = lotion.picked
        if verb == "lotion_see":
            name, _, value = what.partition("=")
            # A second touch takes a choice back.
            kept = {key: one for key, one in picked.items() if key != name}
            self.lotion = replace(lotion, picked=kept if picked.get(name) == value else kept | {name: value})
            return
        if verb == "lotion_burns":
            picked = {**picked, "processing.says": "burns"}
        elif verb != "lotion_next":
            raise ValueError(f"no screen has the action {verb}")
        seen = {name.rpartition(".")[2]: value for name, value in picked.items()}
        watch = look(self._rulebook, lotion.watch, minute=minute, **seen)
        self.lotion = replace(lotion, watch=watch, picked={}, asked_min=minute)

    def _now(self) -> tuple[Lotion, float]:
        """Let the clock run on: at the longest time lotion comes off, whoever looks at the screen."""
        lotion, minute = self.lotion or Lotion(), self.minute
        if lotion.watch is not None:
            watch = at_minute(self._rulebook, lotion.watch, minute=minute)
            lotion = lotion if watch is lotion.watch else replace(lotion, watch=watch)
            self.lotion = lotion
        return lotion, minute

    def _seen_state(self, lotion: Lotion, minute: float) -> tuple[int, bool]:
        due = lotion.watch is not None and (lotion.watch.is_over or minute >= lotion.watch.next_look_min)
        return (int(minute), due)
