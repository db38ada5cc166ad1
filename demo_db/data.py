"""What the data of the invented clinic tell: its people, its eyes, and how an eye of each kind usually does."""

import shlex
import tomllib
from datetime import date
from functools import lru_cache
from importlib import resources
from typing import Any

from pydantic import BaseModel, ConfigDict

from followup.config import Clinic

USUAL_DROPS = ("antibiotic 4 × a day, 7 days", "steroid 4-3-2-1 × a day, 1 week each")


class _Told(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class ToldPerson(_Told):
    """Somebody who works there."""

    name: str
    role: str
    email: str
    password: str


class Before(_Told):
    """What was measured before surgery."""

    acuity: str
    iop: float


class Again(BaseModel):
    """Another operation of the eye after so many days, with what was different then."""

    model_config = ConfigDict(extra="allow", frozen=True)

    after_days: float


class ToldEye(_Told):
    """One eye of one person, dated by days before today; `eyes.toml` says what each part means."""

    number: str
    name: str
    born: date
    phone: str
    eye: str
    operated_days_ago: float
    indication: str
    agent: str
    percent: float = 0
    fill: float = 0
    lens: str
    risks: tuple[str, ...] = ()
    breaks: tuple[str, ...] = ()
    before: Before
    drops: tuple[str, ...] = USUAL_DROPS
    clinic: dict[str, str] = {}
    home: tuple[str, ...] = ()
    missed: tuple[str, ...] = ()
    reached_by: str = "own-phone"
    carer_phone: str = ""
    posture_hours: float | None = None
    diary_until: float | None = None
    again: Again | None = None

    def operated_again(self, again: Again) -> "ToldEye":
        """The same eye from its next operation on."""
        told = self.model_dump(exclude={"again"}, exclude_unset=True)
        return ToldEye.model_validate({**told, "clinic": {}, "home": (), "missed": (), **(again.model_extra or {})})


class ToldMeasures(_Told):
    """What was measured at a visit."""

    acuity: str
    iop: float
    pain: int
    level: float | None = None
    findings: tuple[str, ...] = ()
    no_gas: bool = False

    @classmethod
    def read(cls, words: str) -> "ToldMeasures":
        """From words such as `acuity=6/24 iop=15 pain=0 no-gas`."""
        parts = (word.partition("=") for word in shlex.split(words))
        said: dict[str, Any] = {name.replace("-", "_"): value or True for name, _, value in parts}
        return cls.model_validate({**said, "findings": tuple(filter(None, said.get("findings", "").split(",")))})


class ToldClinic(_Told):
    """The clinic's settings and its people."""

    clinic: Clinic
    staff: tuple[ToldPerson, ...]

    def first(self, role: str) -> ToldPerson:
        """Who does all that somebody of that role does."""
        return next(person for person in self.staff if person.role == role)


class _ToldEyes(_Told):
    eyes: tuple[ToldEye, ...]


@lru_cache
def clinic() -> ToldClinic:
    return ToldClinic.model_validate(_read("clinic"))


@lru_cache
def eyes() -> tuple[ToldEye, ...]:
    """The eyes that the data tell of."""
    return _ToldEyes.model_validate(_read("eyes")).eyes


@lru_cache
def usual(agent: str) -> dict[str, str]:
    """What is measured at each planned visit of an eye with that agent, where nothing else is said."""
    patterns: dict[str, str] = _read("patterns").get(agent, {})
    return patterns


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads(resources.files(__package__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
