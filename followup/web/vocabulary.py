"""The words of the pages for the codes of the records, by kind."""

from followup.care.callbacks.kinds import LEVELS, OUTCOMES, TASKS, TASKS_ONCE_TOLD
from followup.care.discharge.note import PROCEDURE_STEPS
from followup.care.patients.following import FOLLOW_UP, REASONS
from followup.care.patients.reaching import WAYS
from followup.care.reading.measures import CORRECTIONS
from followup.clinical.agents import AGENTS
from followup.clinical.facts import FINDINGS
from followup.clinical.pressure import INSTRUMENTS
from followup.clinical.surgery import INDICATIONS, RISKS

RULES = {
    "bubble-too-large": "Bubble larger than expected",
    "diary-call": "Planned call, paper diary",
    "gas-after-no-gas": "Gas seen after no gas",
    "only-light-perception": "Light perception only",
    "other-eye": "Something about the other eye",
    "own-words": "In the patient’s own words",
    "pressure-fell-far": "Pressure fell far below usual",
    "silent-early": "Not heard from, first days",
    "silent-late": "Not heard from, later",
    "silent-while-posturing": "Not heard from while posturing",
    "vision-said-worse": "Sight said to be worse",
    "vision-still-worse": "Sight still said to be worse",
    "floaters-in-company-early": "Floaters with another sign, early",
}
"""Titles of rules whose id does not say it; any other is the id in words."""

POSTURES = {
    "upright": "sit upright",
    "left-cheek": "left cheek on the pillow",
    "right-cheek": "right cheek on the pillow",
    "face-down": "face down",
    "face-up": "face up",
}
HOW_SOON = {"now": "now", "today": "today", "this-week": "this week"}
HOW_SOON_SHAPE = {"now": "▲", "today": "◆", "this-week": "●"}
REACHES = {"macula": "macula", "arcade": "arcade", "equator": "equator", "periphery": "periphery"}
WORDS: dict[str, dict[str, str]] = {
    "agent": {name: agent.words for name, agent in AGENTS.items()},
    "agent_brief": {
        "air": "air",
        "sf6": "SF₆",
        "c2f6": "C₂F₆",
        "c3f8": "C₃F₈",
        "silicone-oil": "oil",
        "heavy-silicone-oil": "heavy oil",
        "none": "–",
    },
    "posture": POSTURES,
    "how_soon": HOW_SOON,
    "indication": INDICATIONS,
    "risk": RISKS,
    "finding": FINDINGS,
    "step": PROCEDURE_STEPS,
    "correction": CORRECTIONS,
    "instrument": {name: i.words for name, i in INSTRUMENTS.items()},
    "outcome": OUTCOMES,
    "task": TASKS,
    "task_once_told": TASKS_ONCE_TOLD,
    "state": {"to-do": "to do"},
    "entry": {
        "measures": "measurements",
        "seen": "visit took place",
        "arrived": "arrived",
        "did-not-come": "did not come",
        "no-gas-seen": "no gas seen",
        "tamponade-removed": "oil or gas taken out",
        "heard": "reached on the phone",
        "symptoms": "eye check",
        "posture": "head position",
        "bubble-seen": "bubble seen by the patient",
        "journey": "journey",
        "anaesthetic": "anaesthetic",
        "drops": "drop taken",
        "visit-request": "asks for another time",
    },
    "note": {
        "eye": "eye",
        "operated_at": "date and time of surgery",
        "surgeon": "surgeon",
        "indication": "indication",
        "steps": "what was done",
        "breaks": "breaks",
        "lens": "lens",
        "agent": "left in the eye",
        "percent": "concentration, %",
        "fill_percent": "fill, %",
        "risks": "risks left behind",
        "baseline": "before surgery",
        "drops": "drops",
        "steroid_drops_until": "steroid drops until",
        "steroid_last_day": "last day of steroid drops",
        "height_metres": "height of the place, metres",
        "posture": "head position",
        "notes": "notes",
    },
    "particular": {
        "number": "hospital number",
        "name": "name",
        "born_on": "date of birth",
        "phone": "phone",
        "language": "language of the phone pages",
    },
    "reach": REACHES,
    "level": dict(enumerate(LEVELS)),  # type: ignore[arg-type]
    "end": REASONS,
    "follow_up": FOLLOW_UP,
    "follow_up_why": {**REASONS, "operation": "an operation", "taken-up": "", "joined": "two records were joined"},
    "message": {
        "posture": "reminder to hold the head",
        "drops": "reminder of drops",
        "visit": "reminder of a visit",
        "visit-changed": "note that a visit was moved or cancelled",
        "not-heard": "note that nothing was heard",
        "password-reset": "link for a new password",
    },
    "message_state": {
        "waiting": "not sent yet",
        "sending": "on its way",
        "sent": "sent",
        "dropped": "not sent: of no more use",
    },
    "eye": {"right": "right eye", "left": "left eye"},
    "worry": {
        "infection": "infection",
        "pressure": "pressure",
        "low-pressure": "low pressure or leak",
        "retina": "retina",
        "light": "light perception",
        "iris-vessels": "new vessels at the front",
        "bubble": "bubble",
        "gas-and-height": "gas and height",
        "gas-and-anaesthetic": "gas and anaesthetic",
        "oil": "oil",
        "injury": "injury",
        "other-eye": "the other eye",
        "words": "in the patient’s own words",
        "posture": "posture",
        "silence": "not heard from",
        "missed-visit": "missed visit",
        "diary": "planned call, paper diary",
    },
    "reached_by": WAYS,
}
