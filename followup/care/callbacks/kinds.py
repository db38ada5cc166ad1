"""What may be decided and come of a callback, which task each decision makes, and the words for them."""

OUTCOMES: dict[str, str] = {
    "advice": "advice given",
    "sooner": "seen sooner",
    "same-day": "seen the same day",
    "theatre": "theatre",
    "plan-changed": "told of the changed plan",
    "no-action": "no action, and why",
    "follow-up-ended": "closed with the end of follow-up",
    "not-reached": "not reached",  # older records only
}

TASK_OF = {
    "advice": "phone",
    "sooner": "extra-visit",
    "same-day": "come-today",
    "theatre": "theatre",
    "plan-changed": "plan-changed",
}

DECISIONS = ("advice", "sooner", "same-day", "theatre")

SETTLED_AT_ONCE = ("advice", "no-action")

CHOICES = {code: OUTCOMES[code] for code in (*DECISIONS, "no-action")}

OUTCOME_OF = {kind: outcome for outcome, kind in TASK_OF.items()}

TASKS: dict[str, str] = {
    "phone": "phone the patient with the advice",
    "come-today": "phone the patient: come today",
    "extra-visit": "phone the patient: come sooner",
    "theatre": "phone the patient: theatre",
    "plan-changed": "phone the patient: the plan was changed",
}

TASKS_ONCE_TOLD: dict[str, str] = {
    "phone": "advice given: settle it",
    "come-today": "the patient knows; to be seen today",
    "extra-visit": "the patient knows; to be seen sooner",
    "theatre": "the patient knows; theatre to be confirmed",
    "plan-changed": "the patient knows of the changed plan: settle it",
}

COMES = ("come-today", "extra-visit")
"""Tasks that are done once the patient was seen."""

URGENT = ("now", "today")

BY_PHONE = ("words", "silence", "missed-visit", "posture", "diary", "gas-and-height", "gas-and-anaesthetic")


def usual_decision(worry: str, how_soon: str) -> str:
    """What is mostly decided about a worry: what a call can tell is asked first, an eye in danger is looked at.

    Common practice, no source.
    """
    if worry in BY_PHONE:
        return "advice"
    return "same-day" if how_soon in URGENT else "sooner"


CANCELLED = "theatre cancelled"
"""The step by which theatre that was decided falls away."""

WITHDRAWN = "theatre withdrawn"
"""The step by which theatre leaves its list because follow-up ended; its callback does not wait again."""

LEVELS = ("clinic nurse", "surgeon", "on-call contact")
