"""The patient's phone: its pages, and the interface that they talk to."""

from followup.web.patient import api, pages

BLUEPRINTS = (api.bp, pages.bp)
