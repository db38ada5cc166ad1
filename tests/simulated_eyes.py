"""Made-up eyes for `tests.simulate`: quiet courses and troubled ones, with the noise of honest patients and clinics.

Assumptions; *assumed* means that no figure was found. Sources stand at the end.

Quiet eyes
- One check a day for 14 days (6 % of days without), then one a week. Each of ten questions is answered *worse* by
  mistake at 0.6 to 3 % a check (assumed; `WRONG_WORSE`). Redness on days 0 to 2: 8 %; floaters while the bubble ends
  (height 1 to 25 %): 6 % (both assumed).
- Pain: any in 49 % on day 1, falling to 13 % [Yu15]; over 3 of 10 in 15 % at 24 h [VIP21], mostly gone by day 7
  [Wic]. A painkiller brings 7 of 10 such pains below 5 (assumed).
- What is asked back at once, and each second look: a wrong answer repeats itself in half of the cases (assumed); a true
  one is repeated in 94 % [Eij14]. 6 % of second looks are never answered and 3 % late (assumed). Sight said to be worse
  is sent whatever the plain question brings.
- Pressure varies with SD 1.8 mmHg from day to day (assumed), and each reading by its instrument [BJO05, Reb13, Cook12].
- Acuity: SD of one reading 0.05 logMAR on letter charts, 0.07 on Snellen lines [Lim10, Sim16], which lie 0.13 worse [Kai09].
- Gas: log volume falls with time^1.5; day of half volume 6 (SF6), 13 (C2F6), 20 (C3F8), between-eye SD 30 % [GD, Han93].
- Posture: nothing logged on 4 % of days, under half on 6 % (assumed). Visits take place as planned.
- Callbacks are settled within their time: an hour, the day, one to four days (assumed).

Troubles
- What the patient notices appears some hours after the onset and is then told in 9 of 10 checks; two of five people send
  an extra check within a working day of the first sign (assumed). Shares that notice each sign: infection [BOSU];
  haemorrhage, detachment, spikes: assumed, near [Yor18, Reb12, VD11].
- Infection begins at a median of 1.5 to 4 days [EnIn]. Steroid response: fast on days 3 to 7 [SIO]; slow from day 10 to 28
  at 0.5 to 1 mmHg a day (assumed, textbook onset of weeks).
- Low pressure from day 28 to 150, sinking to 2 to 6 mmHg in two to four weeks; two of five notice worse sight. Seven of ten
  have traction left behind, a long eye or diabetes (all assumed; lasting low pressure follows scar surgery [Per25]).
- New vessels in diabetic eyes from day 30 to 180 [NV13]: seen at 7 of 10 visits, pressure rising 0.4 to 1.1 mmHg a day;
  late pain and redness (assumed).
- Cataract: 0.02 to 0.08 logMAR a month after the first month (assumed: no figure is published).

Sources (and those of `followup.clinical.evidence`)
Yu15: Clin Ophthalmol 2015;9:1379. Wic: Br J Ophthalmol 2009, bjo.2008.153411. Eij14: Acta Ophthalmol 2014;92:697.
EnIn: PMID 27003734. Sim16: Int J Ophthalmol 2016;9:119.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from followup.clinical import bubble, posture, schedule
from followup.clinical.acuity import read
from followup.clinical.course import Course, PlannedVisit
from followup.clinical.facts import Fact, Measures, Postured, Seen, Symptoms
from followup.clinical.surgery import Operation
from followup.protocols import book

OPERATED = datetime(2027, 3, 2, 14, tzinfo=UTC)
WRONG_WORSE = {
    "vision": 0.020, "redness": 0.015, "discharge": 0.010, "curtain": 0.006, "flashes": 0.015,
    "floaters": 0.025, "vomiting": 0.006, "fever": 0.006, "injury": 0.006, "other_eye": 0.010,
}  # fmt: skip
TRENDS = ("vision", "redness", "flashes", "floaters", "other_eye")
GASES = {"sf6": (20, 6.0), "c2f6": (16, 13.0), "c3f8": (14, 20.0)}
READING_SD_MMHG = {"applanation": 1.3, "rebound": 1.9, "non-contact": 2.0}
REPEATS_WRONG, REPEATS_TRUE, TELLS = 0.5, 0.94, 0.9
NEVER_ANSWERS, ANSWERS_LATE = 0.06, 0.03


def _asked_back() -> set[str]:
    looks = [rule for rule in book.rulebook().rules if getattr(rule, "second_look", None)]
    return {sign.partition("=")[0] for rule in looks for sign in rule.threshold["signs"]}


ASKED_BACK = _asked_back()


def _answer(name: str, bad: bool) -> Any:
    return ("worse" if bad else "same") if name in TRENDS else bad


@dataclass
class Trouble:
    """Something goes wrong at `onset` days: what is noticed from when (days), what is measured and seen by the day."""

    onset: float = math.inf
    notices: dict[str, float] = field(default_factory=dict)
    pain: Callable[[float], float] = lambda day: 0.0
    iop: Callable[[float, float], float] = lambda day, usual: usual
    logmar_loss: Callable[[float], float] = lambda day: 0.0
    findings: Callable[[float], frozenset[str]] = lambda day: frozenset()
    operation: dict[str, Any] = field(default_factory=dict)


class SimulatedEye:
    """One operated eye and its patient; `course` is what would have been recorded without callbacks."""

    def __init__(self, rng: np.random.Generator, until: float, trouble: Trouble | None = None, scale: float = 1.0) -> None:
        self.rng, self.until, self.scale = rng, until, scale
        self.trouble = trouble or Trouble()
        agent = self.trouble.operation.get("agent") or str(
            rng.choice(["sf6", "c2f6", "c3f8", "silicone-oil", "none"], p=[0.3, 0.2, 0.25, 0.15, 0.1])
        )
        percent, half = GASES.get(agent, (0, 0.0))
        self.half_day = half * rng.lognormal(0, 0.3) if half else 0.0
        self.usual_iop = float(np.clip(rng.normal(15, 2.5), 10, 20))
        self.final_logmar = float(rng.uniform(0.1, 0.8))
        self.chart = str(rng.choice(["letters", "snellen"], p=[0.35, 0.65]))
        self.hour = float(rng.uniform(-6, 6))
        risks = frozenset({"diabetic"}) if rng.random() < 0.3 else frozenset()
        usual: dict[str, Any] = {
            "eye": "right", "at": OPERATED, "agent": agent, "percent": percent, "fill_percent": 0 if agent == "none" else 92,
            "lens": str(rng.choice(["phakic", "pseudophakic"])), "risks": risks,
            "indication": "diabetic-traction" if risks else "retinal-detachment",
            "baseline_acuity": read(f"logMAR {self.final_logmar + rng.uniform(0, 0.8):.2f}"),
            "baseline_iop_mmhg": round(self.usual_iop + rng.normal(0, 1.8)),
            "steroid_drops_until": self.time(28),
            "plan": posture.Plan("face-down", 12, 5) if agent in GASES else None,
        }  # fmt: skip
        self.operation = Operation(**{**usual, **self.trouble.operation})
        self.wrongly: dict[datetime, set[str]] = {}
        self.course = self._recorded()

    def time(self, day: float) -> datetime:
        return OPERATED + timedelta(minutes=round(day * 1440))

    def height_percent(self, day: float) -> float:
        if not self.half_day:
            return 0.0
        volume = 92 * 0.5 ** ((day / self.half_day) ** 1.5)
        return bubble.meniscus_percent(volume) if volume >= 0.5 else 0.0

    def check(self, day: float) -> Symptoms:
        """The answers of one check; which of them were wrong is kept for the second look."""
        at = self.time(day)
        wrong = {name for name, rate in WRONG_WORSE.items() if self.rng.random() < self._wrong_rate(name, rate, day)}
        true = {name for name in WRONG_WORSE if self.notices(name, day) and self.rng.random() < TELLS}
        said = wrong | true
        if len(said) == 1 and said <= ASKED_BACK - {"vision"}:
            said = said if self.rng.random() < (REPEATS_TRUE if true else REPEATS_WRONG) else set()
        self.wrongly[at] = wrong
        return Symptoms(at, pain=self._pain(day), **{name: _answer(name, name in said) for name in WRONG_WORSE})

    def asked_back(self, told: Symptoms) -> list[Fact]:
        """A check, and what is said about sight when that is asked back: sight that fell is sent whatever comes."""
        others = [name for name in WRONG_WORSE if name != "vision" and getattr(told, name) in ("worse", True)]
        if "vision" not in ASKED_BACK or told.vision != "worse" or others:
            return [told]
        wrong = "vision" in self.wrongly[told.at]
        still = self.rng.random() < (REPEATS_WRONG if wrong else REPEATS_TRUE)
        return [told, Symptoms(told.at + timedelta(minutes=1), vision="worse" if still else "same")]

    def notices(self, name: str, day: float) -> bool:
        return day >= self.trouble.notices.get(name, math.inf)

    def second_look(self, asked_at: datetime, due_at: datetime, signs: tuple[str, ...]) -> Symptoms | None:
        """The answer to a second look, or None for a patient who gives none."""
        chance = self.rng.random()
        if chance < NEVER_ANSWERS:
            return None
        share = self.rng.uniform(1.05, 2) if chance < NEVER_ANSWERS + ANSWERS_LATE else self.rng.uniform(0.3, 1.0)
        at = asked_at + (due_at - asked_at) * float(share)
        day = (at - OPERATED) / timedelta(days=1)
        told: dict[str, Any] = {}
        for name in signs:
            if name == "pain":
                told[name] = self._pain(day) if self.trouble.pain(day) >= 1 or self.rng.random() < 0.3 else 2
                continue
            wrong = name in self.wrongly.get(asked_at, ())
            still = self.rng.random() < (REPEATS_WRONG if wrong and not self.notices(name, day) else REPEATS_TRUE)
            bad = still and (wrong or self.notices(name, day))
            told[name] = _answer(name, bad)
        return Symptoms(at, **told)

    def measures(self, day: float) -> Measures:
        rng = self.rng
        instrument = str(rng.choice(list(READING_SD_MMHG), p=[0.6, 0.25, 0.15]))
        iop = self.trouble.iop(day, self.usual_iop + rng.normal(0, 1.8)) + rng.normal(0, READING_SD_MMHG[instrument])
        height = self.height_percent(day)
        return Measures(
            self.time(day), "right", acuity=read(self._acuity(day, height)), correction="pinhole",
            iop_mmhg=float(np.clip(round(iop), 1, 80)), instrument=instrument,
            bubble_percent=float(np.clip(round(height + rng.normal(0, 5)), 1, 100)) if height > 1 else None,
            pain=self._pain(day), findings=self.trouble.findings(day),
        )  # fmt: skip

    def _acuity(self, day: float, height: float) -> str:
        if height > 45:
            return "HM"
        logmar = self.final_logmar + 0.35 * math.exp(-day / 40) + self.trouble.logmar_loss(day)
        if self.operation.liquid:
            logmar += 0.2
        if height > 0:
            logmar += 0.2
        if logmar > 1.7:
            return "HM" if logmar > 2.1 else "CF"
        chart = self.chart if self.rng.random() < 0.9 else {"letters": "snellen", "snellen": "letters"}[self.chart]
        if chart == "letters":
            return f"{int(np.clip(round(85 - 50 * (logmar + self.rng.normal(0, 0.05))), 0, 100))} letters"
        lines = (6, 7.5, 9, 12, 18, 24, 36, 60, 120, 240)
        shown = 6 * 10 ** (logmar + 0.13 + self.rng.normal(0, 0.07))
        return f"6/{min(lines, key=lambda line: abs(math.log(line / shown))):g}"

    def _wrong_rate(self, name: str, rate: float, day: float) -> float:
        if name == "redness" and day < 3:
            rate = 0.08
        if name == "floaters" and 1 < self.height_percent(day) < 25:
            rate = 0.06
        return rate * self.scale

    def _pain(self, day: float) -> int:
        from_trouble = self.trouble.pain(day)
        if from_trouble >= 1:
            return int(np.clip(round(from_trouble + self.rng.normal(0, 0.8)), 0, 10))
        if self.rng.random() < 0.002 + 0.146 * math.exp(-max(0.0, day - 1) / 2):
            return int(self.rng.choice([4, 5, 6, 7], p=[0.6, 0.28, 0.1, 0.02]))
        any_pain = 0.12 + 0.33 * math.exp(-max(0.0, day - 1) / 5)
        return int(self.rng.choice([1, 2, 3], p=[0.55, 0.3, 0.15])) if self.rng.random() < any_pain else 0

    def _recorded(self) -> Course:
        rng, facts = self.rng, list[Fact]()
        check_days = [d + (9 - 14 + self.hour) / 24 for d in range(1, 15) if rng.random() > 0.06]
        check_days += [d + (9 - 14 + self.hour) / 24 for d in np.arange(21, self.until, 7.0)]
        if self.trouble.notices and rng.random() < 0.4:
            check_days.append(min(self.trouble.notices.values()) + rng.exponential(6 / 24))
        for day in sorted(check_days):
            if 0 < day < self.until:
                facts += self.asked_back(self.check(day))
        planned = schedule.windows(book.reviews(), OPERATED.date(), self.operation.agent, self.operation.risks)
        for window in planned:
            first, last = ((d - OPERATED.date()).days for d in (window.earliest, window.latest))
            target = (window.target - OPERATED.date()).days
            day = float(np.clip(target + rng.integers(-2, 4), first, last)) - 0.2
            if day < self.until:
                facts += [self.measures(day), Seen(self.time(day + 0.01), window.name)]
        facts += self._posturing()
        visits = tuple(PlannedVisit(w.name, w.earliest, w.latest) for w in planned)
        return Course.after(self.operation, visits, tuple(facts))

    def _posturing(self) -> list[Fact]:
        if self.operation.plan is None:
            return []
        logged: list[Fact] = []
        for day in range(1, 6):
            chance = self.rng.random()
            hours = 0.0 if chance < 0.04 else 4.0 if chance < 0.10 else 10.5
            if hours:
                end = datetime.combine(OPERATED.date() + timedelta(days=day), datetime.min.time(), UTC) + timedelta(hours=20)
                block = posture.Block("face-down", end - timedelta(hours=hours), end)
                logged.append(Postured(end + timedelta(hours=1), block))
        return logged
