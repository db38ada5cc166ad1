"""What everybody may open: the front page, signing in, how the numbers are worked out, whether all works."""

from followup.web.anybody import account, by_directory, forgotten, own_account, pages

PAGES = (by_directory, forgotten, own_account)
BLUEPRINTS = (account.bp, pages.bp)
