"""By which clock the time of an entry is: a device's clock may be wrong, and may be changed while an entry waits.

Of each device two differences to the clinic's clock are known: that of now, while it sends, and that of when it last heard
the clinic before the entry, which the entry carries (`heard`). The entry was made between those two moments, so its time
goes by the clock that puts it there. Where neither does, the clock was changed and changed back: then the entry counts as
made when it came, and the device's own time stays beside it.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from followup.care import bounds

SKEW_FROM = timedelta(minutes=2)  # smaller differences between two clocks are the time on the way


@dataclass(frozen=True, slots=True)
class Clocks:
    """The clinic's clock and the device's while it sends (`sent_at`: None where it does not say)."""

    now: datetime
    sent_at: datetime | None = None

    def moved_by(self, at: datetime, heard: Any) -> timedelta:
        """What makes the device's time `at` the clinic's. `heard` is {clinic_at, device_at}; what cannot be counts as absent.

        No entry was made after it came: of one that lies a little ahead of the clinic's clock nobody would judge the danger
        in time. What lies too far ahead stays there, and is refused.
        """
        by = self._apart(at, heard)
        ahead = at + by - self.now
        return by - ahead if timedelta(0) < ahead <= bounds.FUTURE_TOLERANCE else by

    def _apart(self, at: datetime, heard: Any) -> timedelta:
        of_now = _difference(self.now, self.sent_at or self.now)
        times = _read(heard)
        if times is None or times[0] > self.now + SKEW_FROM:
            return of_now
        first, last = times[0] - SKEW_FROM, self.now + SKEW_FROM
        for difference in (of_now, _difference(*times)):
            if first <= at + difference <= last:
                return difference
        return self.now - at


def _difference(clinic_at: datetime, device_at: datetime) -> timedelta:
    off = clinic_at - device_at
    return off if abs(off) >= SKEW_FROM else timedelta(0)


def _read(heard: Any) -> tuple[datetime, datetime] | None:
    if not isinstance(heard, dict):
        return None
    clinic_at, device_at = (bounds.clock(heard.get(name)) for name in ("clinic_at", "device_at"))
    return None if clinic_at is None or device_at is None else (clinic_at, device_at)
