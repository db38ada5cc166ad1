"""What the server would have raised over a course file, as values and with the keys that the command line promises."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from followup.clinical import callbacks, second_looks, warnings
from followup.clinical.facts import Settled
from followup.exchange import course_file


@dataclass(frozen=True, slots=True)
class Told:
    """Signs in the order raised, the callbacks that they opened, and what was asked back."""

    signs: Sequence[warnings.Sign]
    callbacks: Sequence[callbacks.Callback]
    rechecks: Sequence[second_looks.Asked]

    def as_json(self) -> dict[str, list[dict[str, Any]]]:
        return {
            "warnings": [_sign_as_json(sign) for sign in self.signs],
            "callbacks": [_callback_as_json(callback) for callback in self.callbacks],
            "rechecks": [
                {"asked_at": _as_text(look.asked_at), "due_at": _as_text(look.due_at), "signs": list(look.signs)}
                for look in self.rechecks
            ],
        }


def told_by(raw: Mapping[str, Any], rulebook: warnings.Rulebook) -> Told:
    """Run the rulebook over a course file. Raises `CourseFileError`."""
    courses, until = course_file.read(raw)
    signs = warnings.in_order(sign for told in courses for sign in warnings.evaluate(told, rulebook, until))
    settled = [f for f in courses[0].facts if isinstance(f, Settled) and f.at <= until]
    looks = second_looks.second_looks(courses[0], rulebook, until)
    return Told(signs, callbacks.callbacks(signs, settled), looks)


def _sign_as_json(s: warnings.Sign) -> dict[str, Any]:
    return {
        "rule": s.rule,
        "worry": s.worry,
        "how_soon": s.how_soon,
        "raised_at": _as_text(s.raised_at),
        "values": s.values,
        "threshold": dict(s.threshold),
        "source": s.source,
        "words": s.words,
    }


def _callback_as_json(c: callbacks.Callback) -> dict[str, Any]:
    return {
        "how_soon": c.how_soon,
        "opened_at": _as_text(c.opened_at),
        "due_at": _as_text(c.due_at),
        "settled_at": _as_text(c.settled_at) if c.settled_at else None,
        "rules": list(c.rules),
    }


def _as_text(at: datetime) -> str:
    return at.isoformat().replace("+00:00", "Z")
