"""Random requests to every route by every role, and a look after each whether something is half stored.

`python -m tests.fuzz --requests 100000 --seed 1` prints how often each route answered each role what. Most requests are
nearly right (forms as pages give them, entries as phones make them) and spoilt in a place or two, so that they get to
the code behind; a request of the same seed is the same again, but for ids and keys.
"""

from tests.fuzz.rounds import Told, run

__all__ = ["Told", "run"]
