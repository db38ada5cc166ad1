"""What the clinic saw, and pain told there."""

from collections.abc import Iterator, Mapping
from typing import Any

from followup.clinical.checks.look import Check, Look
from followup.clinical.facts import Measures
from followup.clinical.timeline import Timeline


def beside(m: Measures, threshold: Mapping[str, Any]) -> bool:
    """Whether the pain and the finding that a threshold asks for were there at the same visit."""
    pain_needed = threshold.get("pain")
    finding = threshold.get("finding")
    return (pain_needed is None or (m.pain or 0) >= pain_needed) and (finding is None or finding in m.findings)


def _finding(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    name = threshold["finding"]
    for m in timeline.measures:
        bad = beside(m, threshold)
        yield (m.at, float(m.pain or 0) if bad else None, {"finding": name})


def _pain_in_clinic(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for m in timeline.measures:
        if m.pain is not None:
            yield (m.at, float(m.pain) if m.pain >= threshold["pain"] else None, {"pain_score": m.pain})


CHECKS = {
    "finding": Check(_finding, frozenset({"finding"}), fits_fellow=True),
    "pain-in-clinic": Check(_pain_in_clinic, frozenset({"pain"}), fits_fellow=True),
}
