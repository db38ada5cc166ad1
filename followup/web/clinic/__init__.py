"""The clinic's pages, and the interface of its devices. Each module below adds its routes to the one blueprint."""

from followup.web.clinic import (
    blueprint,
    booking,
    calling,
    correcting,
    day,
    device_api,
    discharging,
    eyes,
    for_theatre,
    on_paper,
    patients,
    theatre_list,
    visits,
)

PAGES = (booking, calling, correcting, day, discharging, eyes, for_theatre, on_paper, patients, theatre_list, visits)
BLUEPRINTS = (blueprint.bp, device_api.bp)
