"""What the demo says when it starts: where it is, and how to sign in as each of its people."""

from datetime import datetime
from ipaddress import ip_address
from urllib.parse import urlsplit

from demo_db import build, data
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.config import Settings
from followup.exchange import qr
from followup.records import Store, patients


def words(store: Store, made: Settings, now: datetime) -> str:
    """Where to open the demo, a sign-in for each of its people, and for a phone in the same network a code to scan."""
    address = made.server.public_address
    patient = patients.by_number(store, data.eyes()[0].number)
    assert patient is not None
    code = enrol.issue_code(Desk(store, now, build.NOBODY, made.clinic.tz), patient.id)
    phone = f"{address}/enrol?code={code}"
    staff = [f"  {p.role:14}{p.email:28}{p.password}" for p in data.clinic().staff]
    said = [
        f"\nThe invented clinic is at {address}/",
        f"Staff sign in at {address}/sign-in",
        *staff,
        f"A patient sets up a phone at {phone}\n  year of birth {patient.born_on.year}   ({patient.name})",
    ]
    if not _is_here_only(address):
        said += [
            qr.blocks(phone),
            "Scan this with a phone in the same network. Without TLS a browser keeps nothing for later, so on a phone the demo "
            "works with a signal only.",
        ]
    days = (now - build.built_at(store)).days
    if days:
        said.append(f"It was built {days} day{'s' if days > 1 else ''} ago: {build.RENEW}.")
    return "\n".join([*said, "Stop it with Ctrl-C.\n"])


def built(store: Store) -> str:
    """What was built, where nothing serves it."""
    return (
        f"The invented clinic is in {store.path}; start the demo with --folder {store.path.parent}, and it is served and says how to "
        "sign in."
    )


def _is_here_only(address: str) -> bool:
    host = urlsplit(address).hostname or ""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"
