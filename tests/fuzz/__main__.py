"""`python -m tests.fuzz --requests 100000 --seed 1`; ends with 1 where something is our fault or half stored."""

import argparse
import logging
import os
import sys
from collections import Counter, defaultdict
from datetime import UTC, datetime

from tests.conftest import MEMORY
from tests.fuzz.rounds import A_CLINIC_LASTS, Told, run


class Aloud(Told):
    """Says each fault at once."""

    def wrong(self, fault: str) -> None:
        super().wrong(fault)
        print(fault[:2000], file=sys.stderr, flush=True)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--requests", type=int, default=1000)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    logging.disable(logging.CRITICAL)
    began, told = datetime.now(UTC), Aloud()
    folder = MEMORY if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) else None
    for done in range(0, given.requests, A_CLINIC_LASTS):
        run(min(A_CLINIC_LASTS, given.requests - done), given.seed * 1_000_000 + done, folder, told)
        print(f"{told.requests} after {_since(began)} s, {len(told.faults)} faults", file=sys.stderr, flush=True)
    print(f"{told.requests} requests with seed {given.seed} in {_since(began)} s")
    _say(told)
    return 1 if told.faults else 0


def _since(began: datetime) -> int:
    return (datetime.now(UTC) - began).seconds


def _say(told: Told) -> None:
    routes: defaultdict[str, defaultdict[str, Counter[int]]] = defaultdict(lambda: defaultdict(Counter))
    for (endpoint, role, method, status), n in sorted(told.statuses.items()):
        routes[f"{endpoint} {method}"][role][status] += n
    for route, roles in routes.items():
        said = "; ".join(f"{role} {_counts(statuses)}" for role, statuses in roles.items())
        print(f"{route}: {said}")
    print(f"all: {_counts(Counter({s: told.of(s) for s in sorted({key[3] for key in told.statuses})}))}")
    print(f"{told.reached} reached the code behind; rows written by what changes something: {_counts(told.kept)}")
    print(f"{len(told.faults)} faults")
    for fault in told.faults[:60]:
        print(fault)


def _counts(counted: Counter[int] | Counter[str]) -> str:
    return ", ".join(f"{what}: {n}" for what, n in counted.items())


if __name__ == "__main__":
    sys.exit(main())
