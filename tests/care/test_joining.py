"""Two records of one person become one: nothing is lost, and both numbers find the person. Common practice, no source."""

from datetime import date, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.corrections import particulars
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import SamePerson, other_particulars
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.home import enrol, pack
from followup.care.home.receive import receive
from followup.care.messages import outgoing
from followup.care.patients import following, joining
from followup.care.reading.eye import load
from followup.care.today import lists
from followup.care.visits.visit import record_visit
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, audit, eyes, patients, people, worries
from followup.records import messages as kept
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Device, Eye
from tests.conftest import NOW, OPERATED, ZONE, consented, operation_note, patient_details

TODAY = date(2027, 3, 5)
SECOND = patient_details("T-2").model_copy(
    update={"name": "Pat Pattient", "born_on": date(1952, 3, 15), "phone": "+00 9 877"}
)


@pytest.fixture
def second(store: Store, nurse: Actor, settings: Settings) -> tuple[str, str]:
    """The same person once more, under another number: oil put into the left eye. (eye id, code)"""
    note = operation_note(eye="left", agent="silicone-oil", percent=0, steroid_drops_until=None)
    window = schedule.Window("week 1", date(2027, 3, 10), date(2027, 3, 8), date(2027, 3, 14), "retina")
    at = OPERATED + timedelta(hours=5)
    return leaving.discharge(Desk(store, at, nurse, settings.clinic.tz), SECOND, note, [window])


def known(store: Store, eye_id: str) -> Eye:
    found = eyes.eye(store, eye_id)
    assert found is not None
    return found


def join(store: Store, nurse: Actor, one: str, other: str, settings: Settings, **choice: Any) -> str:
    """Join the patients of two eyes."""
    zone = settings.clinic.tz
    shown = joining.look(store, known(store, one).patient.id, known(store, other).patient.id, zone)
    choice = {"number": "one", "particulars": "other", "mark": shown.mark, **choice}
    return joining.join(Desk(store, NOW, nurse, zone), shown, **choice)


def everything(store: Store, zone: Any, *ids: str) -> list[tuple[Any, ...]]:
    """How much is known of these eyes."""
    found = [load(store, id, zone) for id in ids]
    return [(e.side, len(e.notes), len(e.visits), len(e.events), len(e.warnings), len(e.callbacks)) for e in found]


def test_nothing_is_lost_and_both_numbers_find_the_person(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings
) -> None:
    zone = settings.clinic.tz
    for id, side, iop in ((eye_id, "right", 36.0), (second[0], "left", 46.0)):
        record_visit(Desk(store, NOW, nurse, zone), id, [MeasuresBody(eye=side, iop_mmhg=iop)])
    before = everything(store, zone, eye_id, second[0])
    assert all(all(counts[1:]) for counts in before)
    stays = join(store, nurse, eye_id, second[0], settings)
    both = eyes.of_patient(store, stays)
    assert everything(store, zone, *(e.id for e in both)) == before
    assert [e.is_followed for e in both] == [True, True]
    person = patients.patient(store, stays)
    assert person is not None
    assert (person.number, person.name, person.born_on, person.phone) == (
        "T-1", "Pat Pattient", date(1952, 3, 15), "+00 9 877",
    )  # fmt: skip
    assert [known and known.id for known in (patients.by_number(store, n) for n in ("T-1", "T-2"))] == [stays, stays]
    for asked in ("T-1", "T-2", "pattient", "15.3.1952", "00 9 877"):
        assert [f.patient.id for f in lists.find(store, asked, TODAY).shown] == [stays], asked
    assert {c.eye_id for c in worries.open_callbacks(store)} == {e.id for e in both}
    assert {d.eye.id for d in lists.due_in(store, NOW, zone, lists.STATES)} == {e.id for e in both}
    assert [d.how_soon for d in lists.due_in(store, NOW, zone, lists.STATES)].count(None) == 0
    said = [a for a in audit.of_subject(store, stays) if a["action"] == "records joined"]
    assert len(said) == 1
    for was in ("T-1", "T-2", "Pat Patient", "Pat Pattient", "1952-03-14", "1952-03-15"):
        assert was in said[0]["detail"]


def test_phones_and_codes_of_the_joined_record_go_on(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings
) -> None:
    zone = settings.clinic.tz
    consented(Desk(store, NOW, nurse, zone), second)
    token = enrol.enrol(store, NOW, second[1], 1952, "patient", "test")
    device = enrol.device(store, token)
    assert device is not None
    person = f"patient:{device.patient_id}"
    kept.subscribe(store, NOW, person, "https://push.test.invalid/1", "k", "a", device.id)
    outgoing.choose(store, NOW, person, outgoing.Choices(email="pat@test.invalid", quiet_from="21:00", quiet_to="07:00"))
    unused = enrol.issue_code(Desk(store, NOW, nurse, ZONE), device.patient_id)
    stays = join(store, nurse, eye_id, second[0], settings)

    moved = enrol.device(store, token)
    assert moved is not None
    assert moved.patient_id == stays
    assert {e.eye for e in pack.pack(store, settings.clinic, moved, NOW).eyes} == {"right", "left"}
    assert len(kept.subscriptions(store, f"patient:{stays}")) == 1
    choice = kept.choices(store, f"patient:{stays}")
    assert choice is not None
    assert choice.email == "pat@test.invalid"
    first = _told(store, moved, second[0], zone)  # what the phone still knows by the former eye
    _told(store, moved, second[0], zone, corrects=first)
    enrol.enrol(store, NOW, unused, 1952, "carer", "test")
    assert len(people.devices_of(store, stays)) == 2


def _told(store: Store, device: Device, eye_id: str, zone: Any, corrects: str | None = None) -> str:
    entry = {"id": new_id(), "operation": eye_id, "kind": "symptoms", "at": NOW.isoformat(), "body": {"pain": 1}}
    entry |= {"by": "patient", "sequence": 1, "offset_minutes": 0, "corrects": corrects}
    (result,) = receive(store, NOW, device, [entry], zone)
    assert result.status == "received", result.reason
    return str(entry["id"])


def test_a_discharge_under_the_former_number_goes_to_the_person(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings
) -> None:
    stays = join(store, nurse, eye_id, second[0], settings)
    written = SECOND.model_copy(update={"phone": "+00 1"})
    other = other_particulars(store, written)
    assert other is not None
    same = SamePerson("written", other.mark)
    note = operation_note(eye="left", operated_at=NOW - timedelta(hours=2), steroid_drops_until=None)
    again, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), written, note, [], same_person=same)
    assert known(store, again).patient.id == stays
    assert known(store, again).patient.number == "T-1"
    assert [n.agent for n in load(store, again, settings.clinic.tz).notes] == ["silicone-oil", "c2f6"]


def test_one_operation_in_both_records_is_asked_about(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    twice, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), SECOND, operation_note(), [])
    with pytest.raises(CareError, match="same eye on the same day"):
        join(store, nurse, eye_id, twice, settings)
    assert known(store, twice).id == twice
    join(store, nurse, eye_id, twice, settings, same_day_meant=True)
    assert known(store, twice).id == eye_id
    assert len(load(store, eye_id, settings.clinic.tz).notes) == 2


def test_an_eye_that_one_record_ended_and_the_other_follows_is_followed(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    note = operation_note(operated_at=OPERATED - timedelta(days=90), steroid_drops_until=None, agent="air", percent=100)
    earlier, _ = leaving.discharge(Desk(store, OPERATED - timedelta(days=90), nurse, settings.clinic.tz), SECOND, note, [])
    following.end(Desk(store, OPERATED - timedelta(days=60), nurse, settings.clinic.tz), earlier, "finished", "")
    join(store, nurse, earlier, eye_id, settings)
    eye = load(store, earlier, settings.clinic.tz)
    assert (eye.known.is_followed, eye.known.end_reason, eye.follow_ups[-1].reason) == (True, None, "joined")
    assert [n.agent for n in eye.notes] == ["air", "c2f6"]
    assert eye.agent.name == "c2f6"


def test_both_ended_stays_ended_with_its_reason(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    zone = settings.clinic.tz
    other = patients.add(store, NOW, "T-3", "Pat Patient", date(1952, 3, 14), "", "en")
    following.end(Desk(store, NOW - timedelta(days=2), nurse, zone), eye_id, "moved", "")
    shown = joining.look(store, other, known(store, eye_id).patient.id, zone)
    joining.join(Desk(store, NOW, nurse, zone), shown, number="one", particulars="one", mark=shown.mark)
    assert (known(store, eye_id).patient.id, known(store, eye_id).end_reason) == (other, "moved")


def test_what_was_shown_is_what_is_joined(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings
) -> None:
    zone = settings.clinic.tz
    one, other = (known(store, id).patient.id for id in (eye_id, second[0]))
    shown = joining.look(store, one, other, zone)
    patients.correct(store, other, "T-2", "Quite Another", date(1980, 1, 1), "", "en")
    with pytest.raises(Conflict):
        joining.join(Desk(store, NOW, nurse, zone), shown, number="one", particulars="one", mark=shown.mark)
    with pytest.raises(CareError, match="one record"):
        joining.look(store, one, one, zone)
    with pytest.raises(NotFound):
        joining.look(store, one, "nobody", zone)
    join(store, nurse, eye_id, second[0], settings)
    with pytest.raises(CareError, match="already"):
        joining.look(store, one, other, zone)


@pytest.mark.parametrize("number", ["T-1", "T-9"])
@pytest.mark.parametrize("which", ["gone", "stays"])
def test_particulars_are_put_right_for_the_person_by_either_id(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings, which: str, number: str
) -> None:
    gone, stays = known(store, second[0]).patient, known(store, eye_id).patient
    join(store, nurse, eye_id, second[0], settings, particulars="one")
    right = patient_details(number).model_copy(update={"name": f"Patricia {which}"})
    particulars.correct(Desk(store, NOW, nurse, ZONE), (gone if which == "gone" else stays).id, right, "misheard")
    found = {p.id: (p.number, p.name) for p in (known(store, eye_id).patient, *patients.joined_to(store, stays.id))}
    assert found == {stays.id: (number, f"Patricia {which}"), gone.id: ("T-2", gone.name)}


@pytest.mark.parametrize("which", ["gone", "stays"])
def test_a_former_number_is_not_taken_twice(
    store: Store, nurse: Actor, eye_id: str, second: tuple[str, str], settings: Settings, which: str
) -> None:
    gone, stays = known(store, second[0]).patient, known(store, eye_id).patient
    join(store, nurse, eye_id, second[0], settings, particulars="one")
    before = audit.head(store)
    with pytest.raises(Conflict, match="T-2 is a former number of this patient, and finds them already"):
        particulars.correct(
            Desk(store, NOW, nurse, ZONE), {"gone": gone, "stays": stays}[which].id, patient_details("T-2"), "x"
        )
    assert audit.head(store) == before
