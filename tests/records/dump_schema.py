"""Lives through two patients with the code of one commit and prints the database as SQL.

For each commit that changes the schema: `PYTHONPATH=<a worktree of it> python dump_schema.py > schemas/<commit>.sql`.
The copy of this file at that commit is the one to run: names of modules have moved since.
"""

import sys
import tempfile
import uuid
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from argon2 import PasswordHasher

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.home import enrol, receive
from followup.care.learning import signing
from followup.care.patients import consenting
from followup.care.reading.eye import load, protocol
from followup.care.visits import visit
from followup.clinical import schedule
from followup.config import Clinic
from followup.records import open_store, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.operation_note import Drop, OperationNote

ZONE = ZoneInfo("Europe/Vienna")
OPERATED = datetime(2027, 3, 2, 14, 0, tzinfo=UTC)
NOW = datetime(2027, 3, 5, 10, 0, tzinfo=UTC)
PASSWORD = "a long test password"


def live(store) -> None:
    nurse = accounts.add_staff(store, OPERATED, "Nora Nurse", "nurse", "nurse@test.invalid", PASSWORD)
    surgeon = accounts.add_staff(store, OPERATED, "Sol Surgeon", "surgeon", "surgeon@test.invalid", PASSWORD)
    nurse, surgeon = Actor(nurse, "Nora Nurse", "nurse"), Actor(surgeon, "Sol Surgeon", "surgeon")
    gas, code = discharged(store, nurse, "S-1", "Pia Person", agent="c2f6", percent=16, fill_percent=95)
    oil, _ = discharged(store, nurse, "S-2", "Olaf Other", agent="silicone-oil", percent=0, fill_percent=90)

    consenting.give(Desk(store, OPERATED, nurse, ZONE), load(store, gas, ZONE).patient.id, "patient", "")
    token = enrol.enrol(store, OPERATED + timedelta(hours=6), code, 1952, "patient", "home")
    batch = [
        sent(1, gas, "posture", {"position": "face-down", "from": "2027-03-03T08:00:00Z", "to": "2027-03-03T11:00:00Z"}),
        sent(2, gas, "symptoms", {"pain": 8, "vision": "worse", "curtain": True}),
        sent(3, gas, "symptoms", {"pain": 99}),
    ]
    receive.receive(store, NOW, enrol.device(store, token), batch, ZONE)
    bodies = [MeasuresBody(eye="right", acuity="6/60", iop_mmhg=41, instrument="applanation", bubble_percent=85)]
    visit.record_visit(Desk(store, NOW, nurse, ZONE), gas, bodies, visit="day 1")
    visit.record_visit(Desk(store, NOW, nurse, ZONE), oil, [MeasuresBody(eye="right", acuity="HM", iop_mmhg=14)])
    first, *_ = worries.open_callbacks(store)
    if hasattr(visit, "bring_forward"):  # commits before tasks, which gave rows for values
        visit.bring_forward(store, NOW, nurse, load(store, gas, ZONE), 3, "sooner", ZONE)
        holding.claim(Desk(store, NOW, nurse, ZONE), first["id"])
        phone_calls.attempt(Desk(store, NOW, nurse, ZONE), first["id"], True, "comes at once", ZONE)
        settling.settle(Desk(store, NOW, nurse, ZONE), first["id"], "same-day", "comes at two", ZONE)
    else:
        clinic = Clinic(zone="Europe/Vienna")
        holding.claim(Desk(store, NOW, nurse, ZONE), first.id)
        phone_calls.attempt(Desk(store, NOW, nurse, ZONE), first.id, "patient", "comes at once", clinic)
        settling.settle(Desk(store, NOW, nurse, ZONE), first.id, "advice", "comes at two", clinic)
    signing.sign(Desk(store, NOW, surgeon, ZONE), "reviews", protocol(store, "reviews").fingerprint)


def discharged(store, nurse, number, name, **left):
    person = Patient(number=number, name=name, born_on=date(1952, 3, 14), phone="+00 9 876")
    note = OperationNote(
        eye="right",
        operated_at=OPERATED,
        surgeon="Sol Surgeon",
        indication="diabetic-traction",
        breaks=[{"clock": 11, "reach": "equator"}],
        lens="phakic",
        risks=["diabetic"],
        baseline={"acuity": "6/60", "iop_mmhg": 15},
        drops=[Drop(name="antibiotic", times_a_day=4, until=date(2027, 3, 12))],
        steroid_drops_until=date(2027, 3, 30),
        posture={"position": "face-down", "hours_a_day": 12, "days": 5},
        **left,
    )
    day = date(2027, 3, 3)
    visits = [
        schedule.Window("day 1", day, day, day, "pressure"),
        schedule.Window("week 1", day + timedelta(7), day + timedelta(5), day + timedelta(11), "retina"),
    ]
    return leaving.discharge(Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE), person, note, visits)


def sent(number, operation, kind, body):
    return {
        "id": f"0195e5a0-0000-7000-8000-{number:012d}",
        "operation": operation,
        "kind": kind,
        "at": "2027-03-05T09:00:00Z",
        "offset_minutes": 60,
        "sequence": number,
        "by": "patient",
        "body": body,
    }


if __name__ == "__main__":
    accounts._hasher = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    with tempfile.TemporaryDirectory() as folder:
        made = open_store(Path(folder) / f"{uuid.uuid4().hex}.db", create=True)
        live(made)
        sys.stdout.write("\n".join(made.db.conn.iterdump()) + "\n")
        made.close()
