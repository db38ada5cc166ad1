"""Change constants of the clinical core one at a time and see that the tests notice. Run by hand: python -m tests.mutate_constants"""

import subprocess
import sys
from pathlib import Path

CORE = Path(__file__).parent.parent / "followup" / "clinical"
MUTATIONS = [
    ("vision.py", 'Figure("logMAR for one letter", 0.02', 'Figure("logMAR for one letter", 0.025'),
    (
        "vision.py",
        'Figure("smallest real change, ordinary clinic", 0.15',
        'Figure("smallest real change, ordinary clinic", 0.2',
    ),
    ("pressure.py", '"kPa", "DEF"', '"kPa", "DEF").__class__("x", 0.14, "kPa", "DEF"'),
    ("pressure.py", 'Figure("spike, from", 30', 'Figure("spike, from", 31'),
    ("pressure.py", 'response", 6,', 'response", 7,'),
    ("agents.py", 'Figure("life of SF6 20 %", 12.5', 'Figure("life of SF6 20 %", 18'),
    ("agents.py", 'Figure("a gas counts as gone below", 2', 'Figure("a gas counts as gone below", 10'),
    (
        "seen_levels.py",
        'Figure("error of a level seen in clinic (1 SD)", 7',
        'Figure("error of a level seen in clinic (1 SD)", 3',
    ),
    (
        "seen_levels.py",
        'Figure("a level this many SD off is flagged", 3',
        'Figure("a level this many SD off is flagged", 30',
    ),
    ("bubble.py", "(3 * radius_mm - height_mm) / 3000", "(3 * radius_mm - height_mm) / 2900"),
    ("altitude.py", '"hPa", "DEF")', '"hPa", "DEF").__class__("x", 0.0, "hPa", "DEF")'),
    ("altitude.py", 'Figure("temperature lapse", 0.0065', 'Figure("temperature lapse", 0.0070'),
    ("coverage.py", "self.clock * 30", "self.clock * -30"),
    ("posture.py", 'counts for at most", 12', 'counts for at most", 14'),
    ("outcomes.py", '"SD", "DEF")\nLIMIT', '"SD", "DEF").__class__("x", 1.64, "SD", "DEF")\nLIMIT'),
    ("timeline.py", 'disturb the line of sight", 40', 'disturb the line of sight", 70'),
]


def main() -> int:
    survivors = 0
    for name, old, new in MUTATIONS:
        file = CORE / name
        text = file.read_text(encoding="utf-8")
        if text.count(old) != 1:
            print(f"not found once: {name}: {old}")
            survivors += 1
            continue
        try:
            file.write_text(text.replace(old, new), encoding="utf-8")
            done = subprocess.run(
                [sys.executable, "-m", "pytest", "-q", "-x", "tests/clinical"], capture_output=True, text=True, check=False
            )
        finally:
            file.write_text(text, encoding="utf-8")
        noticed = done.returncode == 1
        survivors += not noticed
        first = next((line for line in done.stdout.splitlines() if line.startswith(("FAILED", "ERROR"))), "").partition(
            " - "
        )[0]
        print(f"{'noticed' if noticed else 'SURVIVED'}: {name}: {old!r}: {first}")
    return survivors


if __name__ == "__main__":
    sys.exit(main())
