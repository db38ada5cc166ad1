"""The surgeon's pages."""

from followup.web.surgeon import pages

BLUEPRINTS = (pages.bp,)
