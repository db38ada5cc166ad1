"""Carers: let in by the patient with a code made on the phone, seen and removed by the patient."""

from followup.care.desk import Desk
from followup.care.errors import NotFound, Refused, translatable
from followup.care.home import enrol
from followup.records import Store, people
from followup.records.values import Device

NAME_LENGTH = 60
MOST_PHONES = 10  # of one patient, those locked out aside: common practice, no source


def phones(store: Store, device: Device) -> list[Device]:
    """Every phone that reads and writes for this one's patient, its own first, then by when it was set up."""
    standing = [known for known in people.devices_of(store, device.patient_id) if known.revoked_at is None]
    return sorted(standing, key=lambda known: known.id != device.id)


def invite(desk: Desk, device: Device, name: str) -> str:
    """A one-time code for the phone of a carer whom the patient calls `name`. Raises `Refused`."""
    _only_the_patient(device)
    name = " ".join(name.split())
    if not name or len(name) > NAME_LENGTH:
        raise Refused(translatable("Write the name of your helper, at most 60 letters."))
    if len(phones(desk.store, device)) >= MOST_PHONES:
        raise Refused(translatable("There are too many phones. Remove one first."))
    return enrol.issue_code(desk, device.patient_id, carer_name=name)


def remove(desk: Desk, device: Device, other_id: str) -> None:
    """Lock the phone of a carer out, at once. Raises `Refused`, `NotFound`."""
    _only_the_patient(device)
    if other_id not in (known.id for known in phones(desk.store, device) if known.used_by == "carer"):
        raise NotFound(translatable("This phone is not among those of your helpers."))
    enrol.revoke(desk, other_id)


def was_removed(device: Device) -> bool:
    """Whether the patient took this phone off the list of helpers: then it is not the clinic that closed it."""
    return (device.revoked_by or "").startswith("patient:")


def _only_the_patient(device: Device) -> None:
    if device.used_by != "patient":
        raise Refused(translatable("Only the phone of the patient can let others in or remove them."))
