"""Break whatever can break, in random sequences, and see that no entry is lost, doubled or put at a wrong time: python -m tests.faults

`--phone 200 --device 100` say how many sequences of the patient's phone and of a clinic device; `--seed` which. Five are played
on one device: a fault names the seed of its sequence and the first one of its device, and `--seed FIRST --phone 5` plays them
again. Half of the devices have their clock changed by hours, days and years. Needs Chromium; a sequence takes about ten seconds.
Ends with 1 where there was a fault.
"""

import argparse
import json
import sys
import tempfile
from pathlib import Path

from tests.faults.running import DEVICE, PHONE, run


def main() -> int:
    assert __doc__
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--phone", type=int, default=0, metavar="N", help="sequences of the patient's phone")
    options.add_argument("--device", type=int, default=0, metavar="N", help="sequences of a clinic device")
    options.add_argument("--seed", type=int, default=20270302, metavar="N", help="of the first sequence; each has the next")
    asked = options.parse_args()
    faults = 0
    for kind, number in ((PHONE, asked.phone), (DEVICE, asked.device)):
        if number == 0:
            continue
        with tempfile.TemporaryDirectory() as folder:
            counts, found = run(kind, range(asked.seed, asked.seed + number), Path(folder))
        print(f"{kind}: {json.dumps(counts)}; faults: {len(found)}", flush=True)
        faults += len(found)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
