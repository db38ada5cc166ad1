"""Review visits as an iCalendar feed with alarms (RFC 5545)."""

from collections.abc import Iterable
from datetime import UTC, datetime, time, timedelta, tzinfo

from icalendar import Alarm, Calendar, Event

from followup.records.values import Visit


def visits(planned: Iterable[Visit], clinic: str, phone: str, now: datetime, zone: tzinfo) -> bytes:
    """The visits as all-day events, or at their time, with an alarm on the day before. Nothing clinical stands in them."""
    calendar = Calendar()
    calendar.add("prodid", "-//followup//visits//EN")
    calendar.add("version", "2.0")
    for visit in planned:
        event = Event()
        event.add("uid", f"{visit.identity}@followup")
        event.add("dtstamp", now)
        day = visit.target
        if visit.starts:
            event.add("dtstart", datetime.combine(day, visit.starts, zone).astimezone(UTC))
        else:
            event.add("dtstart", day)
            event.add("dtend", day + timedelta(days=1))
        event.add("summary", f"Eye clinic visit: {clinic}")
        event.add("description", f"To change the date call {phone}.")
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", f"Eye clinic visit tomorrow: {clinic}")
        clock = visit.starts or time()
        alarm.add("trigger", timedelta(hours=-15 - clock.hour, minutes=-clock.minute))
        event.add_component(alarm)
        calendar.add_component(event)
    return bytes(calendar.to_ical())
