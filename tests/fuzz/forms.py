"""Forms as pages give them, filled in as people would, and spoilt."""

import random
import re
from dataclasses import dataclass, field
from urllib.parse import urlsplit

from tests.conftest import PASSWORD
from tests.fuzz import poison
from tests.pages import Element, parsed

Pairs = list[tuple[str, str]]
TYPED: dict[str, tuple[str, ...]] = {  # what people type, by the last part of a field's name
    "acuity": ("6/12", "6/60", "CF", "0.3", "20/40-2", "HM", "6/18"),
    "pinhole": ("6/12", "6/9p"),
    "iop": ("12", "18", "31", "5.1"),
    "percent": ("16", "14", "20"),
    "fill_percent": ("90", "95"),
    "bubble_percent": ("40", "85", "0"),
    "pain": ("0", "2", "8"),
    "hours_a_day": ("10",),
    "days": ("5",),
    "name": ("Pat Patient", "Ada Patient", "review"),
    "phone": ("+00 9 876",),
    "carer_phone": ("+00 9 877",),
    "born_on": ("1952-03-14", "1950-05-05"),
    "birth_year": ("1952",),
    "operated_on": ("2027-03-04", "2027-03-02"),
    "operated_time": ("10:30",),
    "surgeon": ("Sol Surgeon",),
    "drops": ("steroid 4 × a day, 4 weeks",),
    "email": ("somebody@test.invalid", "nurse-1@test.invalid"),
    "password": (PASSWORD, "words that nobody guesses"),
    "old": (PASSWORD,),
    "new": ("words that nobody guesses",),
    "again": ("words that nobody guesses",),
    "code": ("123456",),
    "at": ("2027-03-05T09:00", "2027-03-04T12:00"),
    "start": ("2027-03-05T06:00",),
    "end": ("2027-03-05T08:00",),
    "day": ("2027-03-05", "2027-03-10"),
    "target": ("2027-03-12", "2027-03-10"),
    "to": ("2027-03-15",),
    "starts": ("10:30",),
    "by": ("2027-03-05T18:00",),
    "next_try": ("2027-03-05T12:00",),
    "theatre_on": ("2027-03-06",),
    "heights_metres": ("20, 790",),
    "find": ("Pat",),
    "first_day": ("2027-01-01",),
    "last_day": ("2027-03-05",),
    "quiet_from": ("22:00",),
    "quiet_to": ("07:00",),
    "file": (
        "number;name;born_on;eye;operated_on;surgeon\nL-1;Lea List;14.3.1952;right;4.3.2027;Sol Surgeon\n",
        "number,name,born_on,eye,operated_on,surgeon,indication,agent\nL-2,Lou List,1952-03-14,left,2027-03-04,Sol,,c3f8\n",
    ),
}


@dataclass
class Control:
    """A field: what a browser could send of it, and whether several of these."""

    options: list[str] = field(default_factory=list)
    chosen: list[str] = field(default_factory=list)
    several: bool = False
    typed: bool = False
    file: bool = False


@dataclass
class Form:
    """A form of a page: where it goes, and its fields."""

    path: str
    controls: dict[str, Control]

    def filled(self, pick: random.Random) -> Pairs:
        """As somebody would send it who answers everything."""
        pairs: Pairs = []
        for name, control in self.controls.items():
            pairs += [(name, value) for value in _answer(pick, name, control)]
        return pairs


def forms_in(page: str, path: str) -> list[Form]:
    """The forms of a page that change something."""
    return [
        Form(form.get("action") or path, _controls(form))
        for form in parsed(page).all("form")
        if form.get("method").lower() == "post" and not urlsplit(form.get("action")).netloc
    ]


def token_in(page: str) -> str | None:
    found = re.search(r'name="csrf_token"[^>]* value="([^"]+)"', page)
    return found[1] if found else None


def _controls(form: Element) -> dict[str, Control]:
    found: dict[str, Control] = {}
    for element in form:
        name, kind = element.get("name"), element.get("type")
        if not name or name == "csrf_token" or element.tag not in ("input", "select", "textarea", "button"):
            continue
        made = found.setdefault(name, Control())
        if element.tag == "select":
            made.options += [option.attributes.get("value", option.words) for option in element.all("option")]
            made.several = "multiple" in element.attributes
            made.chosen += [] if made.several else made.options[:1]
        elif kind in ("radio", "checkbox"):
            made.options.append(element.attributes.get("value", "on"))
            made.several |= kind == "checkbox"
            made.chosen += made.options[-1:] if "checked" in element.attributes else []
        elif element.tag == "button" or kind == "submit":
            made.options.append(element.get("value"))
        elif kind == "file":
            made.file = made.typed = True
        elif kind == "hidden":
            made.chosen.append(element.get("value"))
        else:
            made.typed = True
            made.chosen += [value for value in [element.sends.get(name, "")] if value]
    return found


def _answer(pick: random.Random, name: str, control: Control) -> list[str]:
    if control.options and control.several:
        return pick.sample(control.options, pick.randint(0, min(3, len(control.options))))
    if control.options:
        return [pick.choice(control.options) if pick.random() < 0.6 or not control.chosen else control.chosen[0]]
    if control.chosen and (not control.typed or pick.random() < 0.7):
        return control.chosen
    if not control.typed:
        return [""]
    known = TYPED.get(re.split(r"-", name)[-1], ("said by the patient", "R-17", ""))
    return [pick.choice(known)]


def spoilt(pick: random.Random, pairs: Pairs) -> Pairs:
    """The fields as they are (three in ten), or some of them replaced, missing, doubled or added."""
    if pick.random() < 0.3 or not pairs:
        return pairs
    made = list(pairs)
    for _ in range(pick.choice((1, 1, 1, 2, 3, len(pairs)))):
        at, kind = pick.randrange(len(made)), pick.random()
        name = made[at][0]
        if kind < 0.7:
            made[at] = (name, poison.text(pick))
        elif kind < 0.8:
            made.append((name, pick.choice(made)[1]))
        elif kind < 0.9 and len(made) > 1:
            del made[at]
        else:
            made.append((pick.choice(("more", "step", "visits-999999-id", "accepted-0", f"{name}-0")), poison.text(pick)))
    return made
