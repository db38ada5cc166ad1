"""What an administrator does: who has an account, and what the audit trail says. No patients."""

from followup.web.administrator import pages

BLUEPRINTS = (pages.bp,)
