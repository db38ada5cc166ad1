"""From warning signs to callbacks: one for an eye and a worry while it is open, raised when worse, opened anew after settling."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from followup.clinical.facts import Settled
from followup.clinical.rulebook import DUE_WITHIN as DUE_WITHIN
from followup.clinical.rulebook import HOW_SOON, HowSoon
from followup.clinical.warnings import Sign


@dataclass(frozen=True, slots=True)
class Callback:
    """Somebody has to be spoken to. `rules` in the order in which they came up; `settled_at` None while it is open."""

    eye: str
    worry: str
    how_soon: HowSoon
    opened_at: datetime
    due_at: datetime
    settled_at: datetime | None = None
    rules: tuple[str, ...] = ()

    def joined_by(self, sign: Sign) -> "Callback":
        """This callback with one more sign: a more urgent one makes it due sooner, none puts it off."""
        rules = self.rules if sign.rule in self.rules else (*self.rules, sign.rule)
        if HOW_SOON.index(sign.how_soon) >= HOW_SOON.index(self.how_soon):
            return replace(self, rules=rules)
        due = min(self.due_at, sign.raised_at + DUE_WITHIN[sign.how_soon])
        return replace(self, rules=rules, how_soon=sign.how_soon, due_at=due)


def callbacks(signs: Iterable[Sign], settlements: Iterable[Settled]) -> list[Callback]:
    """The callbacks of one or more eyes, in the order opened, as signs come up and settlements close them.

    A settlement closes what was open when it was made, signs of the same instant included.
    """
    happened = [(sign.raised_at, 0, sign) for sign in signs] + [(done.at, 1, done) for done in settlements]
    closed: list[Callback] = []
    open_ones: dict[tuple[str, str], Callback] = {}
    for at, _, what in sorted(happened, key=lambda item: item[:2]):
        if isinstance(what, Settled):
            for key in [k for k in open_ones if what.worry in (None, k[1])]:
                closed.append(replace(open_ones.pop(key), settled_at=at))
        else:
            key = (what.eye, what.worry)
            due = at + DUE_WITHIN[what.how_soon]
            fresh = Callback(what.eye, what.worry, what.how_soon, at, due, None, (what.rule,))
            open_ones[key] = open_ones[key].joined_by(what) if key in open_ones else fresh
    return sorted([*closed, *open_ones.values()], key=lambda c: (c.opened_at, c.worry))
