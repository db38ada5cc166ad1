"""How quick the program is, and how that grows: `python -m tests.benchmark`. Run by hand; nothing in the suite is timed."""
