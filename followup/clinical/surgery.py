"""An operation on an eye: why, what was left in it, and what it leaves behind."""

from dataclasses import dataclass
from datetime import datetime

from followup.clinical import altitude, posture, tamponade
from followup.clinical.agents import AGENTS, LIQUIDS
from followup.clinical.coverage import EYES, Break
from followup.clinical.errors import one_of
from followup.clinical.vision import Acuity

INDICATIONS: dict[str, str] = {
    "diabetic-traction": "diabetic traction detachment",
    "diabetic-haemorrhage": "diabetic vitreous haemorrhage",
    "retinal-detachment": "retinal detachment with a break",
    "proliferative-vitreoretinopathy": "proliferative vitreoretinopathy",
    "macular-hole": "macular hole",
    "epiretinal-membrane": "epiretinal membrane",
    "submacular-haemorrhage": "submacular haemorrhage",
    "other": "other",
}
RISKS: dict[str, str] = {
    "residual-traction": "traction left behind",
    "surgical-break": "break made during surgery",
    "long-standing-fluid": "long-standing fluid under the retina",
    "diabetic": "diabetes",
    "pressure-prone": "glaucoma, or a known pressure rise on steroid drops",
    "only-good-eye": "this is the only good eye",
    "angle-vessels": "new vessels in the angle or on the iris before surgery",
    "fellow-new-vessels": "new vessels with pressure in the fellow eye",
    "myopia": "myopia, or an eye of 26 mm or longer",
}


@dataclass(frozen=True, slots=True)
class Operation:
    """What was done, and the eye as it was before. Heights in metres, times aware, fill in percent of volume.

    `entered_at` is when the clinic wrote it down (None: at once): before that nobody could be heard from.
    """

    eye: str
    at: datetime
    agent: str
    percent: float = 0.0
    fill_percent: float = 0.0
    lens: str = "unknown"
    indication: str = "other"
    breaks: tuple[Break, ...] = ()
    risks: frozenset[str] = frozenset()
    steroid_drops_until: datetime | None = None
    baseline_acuity: Acuity | None = None
    baseline_iop_mmhg: float | None = None
    plan: posture.Plan | None = None
    height_metres: float = 0.0
    entered_at: datetime | None = None

    def __post_init__(self) -> None:
        one_of("eye", self.eye, EYES)
        one_of("indication", self.indication, INDICATIONS)
        for risk in self.risks:
            one_of("risk", risk, RISKS)
        tamponade.forecast(self.agent, self.percent, self.fill_percent, self.lens)
        altitude.pressure_hpa(self.height_metres)

    def day(self, at: datetime) -> float:
        """Days after surgery, with its fraction."""
        return (at - self.at).total_seconds() / 86400

    @property
    def fades(self) -> bool:
        return AGENTS[self.agent].fades

    @property
    def liquid(self) -> bool:
        return self.agent in LIQUIDS
