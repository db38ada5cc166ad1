"""What everybody may open: the front page, signing in, how the numbers are worked out, whether all works."""

from followup.web.anybody import account, forgotten, own_account, pages

PAGES = (forgotten, own_account)
BLUEPRINTS = (account.bp, pages.bp)
