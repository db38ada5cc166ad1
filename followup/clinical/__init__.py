"""The trade's arithmetic: pure functions, no clock, no files, no database, no web.

Every value that decides something carries the source it came from (`evidence.Figure`), and the
page *How this is worked out* is drawn from those same objects.
"""
