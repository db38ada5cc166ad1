"""What is kept for the results adds up to what every eye says when it is read anew, whatever people do and at any time.

What people do is drawn at random from fixed seeds. Common practice, no source.
"""

from dataclasses import fields
from datetime import datetime, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError
from followup.care.learning import contributions, results
from followup.care.learning.results import Asked, Results
from followup.care.reading import state
from followup.care.visits import visit
from followup.config import Settings
from followup.records import Store, eyes, kept_results, states, watch
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import RowRefused
from tests.care.results_from_scratch import from_scratch
from tests.care.test_state import Clinic
from tests.conftest import NOW, ZONE, operation_note, patient_details

ACUITIES = ("6/60", "6/24", "6/12", "6/6", "HM")
SPANS = (timedelta(minutes=2), timedelta(hours=20), timedelta(hours=20), timedelta(days=9))


class Months(Clinic):
    """The same clinic over months, with what results are counted from."""

    def live(self, steps: int) -> None:
        self.met: set[str] = set()
        self.verbs += [*[self.looked] * 9, *[self.claimed] * 2, *[self.oil_out] * 2, self.operated_again, self.discharged]
        for _ in range(3):
            self.discharged()
        for _ in range(steps):
            self.now += self.chance.choice(SPANS)
            try:
                self.chance.choice(self.verbs)()
            except (CareError, RowRefused, IndexError, StopIteration):  # what cannot be done now, or on nothing
                continue
            self.nothing_unmarked_is_old()
            self.adds_up(self.now + self.chance.choice((timedelta(), timedelta(days=9), timedelta(days=-30))))

    def looked(self) -> None:
        eye = eyes.eye(self.store, self.eye())
        assert eye
        acuity, iop, level = (self.chance.choice(some) for some in (ACUITIES, (15, 34), (None, 0, 70)))
        seen = {"acuity": acuity, "notation": "snellen", "iop_mmhg": iop, "bubble_percent": level}
        findings = self.chance.choice(((), (), ("detached",)))
        visit.record_visit(self.desk, eye.id, [MeasuresBody(eye=eye.side, findings=findings, **seen)])

    def oil_out(self) -> None:
        visit.record_clinic_event(self.desk, self.eye(), "tamponade-removed", {})

    def operated_again(self) -> None:
        eye = eyes.eye(self.store, self.eye())
        assert eye
        note = operation_note(
            eye=eye.side, operated_at=self.now - timedelta(hours=2), steroid_drops_until=None, drops=[],
            indication=self.chance.choice(("macular-hole", "retinal-detachment")),
            baseline={"acuity": self.chance.choice(ACUITIES), "iop_mmhg": 15},
        )  # fmt: skip
        who = patient_details(eye.patient.number).model_copy(update={"name": eye.patient.name})
        self.eyes.append(leaving.discharge(self.desk, who, note, [])[0])

    def nothing_unmarked_is_old(self) -> None:
        """Whoever is not marked, and whom time has not changed, contributes what is kept."""
        state.bring_up_to_date(self.store, self.now, ZONE)
        old = {states.standing(self.store, id) for id, _ in kept_results.changed(self.store, self.now, 1000)}
        wrong = contributions.differences(self.store, self.now, ZONE)
        of_old = {eye.id for id in old for eye in eyes.of_patient(self.store, id)}
        assert [fault for fault in wrong if fault.split()[2] not in of_old] == []

    def adds_up(self, at: datetime) -> None:
        day = at.astimezone(ZONE).date() - timedelta(days=self.chance.randrange(60))
        some = (
            Asked(surgeon=self.chance.choice(self.people).name),
            Asked(agent=self.chance.choice(("c2f6", "silicone-oil"))),
            Asked(indication="macular-hole", first_day=day),
            Asked(last_day=day),
        )
        for asked in (Asked(), self.chance.choice(some)):
            found = results.results(self.store, at, ZONE, asked)
            assert found == from_scratch(self.store, at, ZONE, asked), asked
            self.met |= {f.name for f in fields(Results) if getattr(found, f.name)}
        assert contributions.differences(self.store, at, ZONE) == []
        assert watch.faults(self.store) == []


@pytest.mark.parametrize("seed", [1, 3])
def test_what_is_kept_adds_up_to_what_every_eye_says(
    store: Store, settings: Settings, nurse: Actor, surgeon: Actor, seed: int
) -> None:
    clinic = Months(store, settings, [nurse, surgeon], seed)
    clinic.live(70)
    assert clinic.met == {f.name for f in fields(Results)}, "each part was compared where it says something"


@pytest.fixture
def seen(store: Store, nurse: Actor, eye_id: str) -> str:
    """An eye that was measured, as the results know it."""
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=41)])
    assert results.results(store, NOW, ZONE).operations == 1
    return eye_id


def test_an_eye_that_cannot_be_worked_out_is_named_left_out_and_tried_again(
    store: Store, nurse: Actor, seen: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: Any) -> None:
        raise ValueError("as a row that nobody foresaw")

    visit.record_visit(Desk(store, NOW, nurse, ZONE), seen, [MeasuresBody(eye="right", iop_mmhg=15)])
    with monkeypatch.context() as fault:
        fault.setattr(contributions, "contribution", broken)
        for at in (NOW, NOW + timedelta(minutes=1)):
            assert results.results(store, at, ZONE).operations == 0
            assert [(f.what, f.about) for f in watch.faults(store)] == [("results", seen)]
    assert results.results(store, NOW + timedelta(minutes=2), ZONE).operations == 1
    assert watch.faults(store) == []


def test_what_changes_while_it_is_worked_out_is_worked_out_again(
    store: Store, nurse: Actor, seen: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    worked_out = contributions.contribution

    def meanwhile(*given: Any) -> Any:
        monkeypatch.setattr(contributions, "contribution", worked_out)
        found = worked_out(*given)
        visit.record_visit(Desk(store, NOW, nurse, ZONE), seen, [MeasuresBody(eye="right", findings=("detached",))])
        state.bring_up_to_date(store, NOW, ZONE)  # as somebody else's page does
        return found

    visit.record_visit(Desk(store, NOW, nurse, ZONE), seen, [MeasuresBody(eye="right", iop_mmhg=15)])
    monkeypatch.setattr(contributions, "contribution", meanwhile)
    results.results(store, NOW, ZONE)
    assert results.results(store, NOW, ZONE) == from_scratch(store, NOW, ZONE)
    assert results.results(store, NOW, ZONE).attached


def test_the_page_reads_no_eye_when_nothing_changed(store: Store, seen: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(contributions, "load")
    assert results.results(store, NOW, ZONE).operations == 1
