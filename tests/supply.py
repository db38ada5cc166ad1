"""What the program stands on, written down anew: `python -m tests.supply` after a dependency changed.

`.ci/lock.txt` names every package with its version and the hash of its file, for this Python and system; install from it
with `pip install --require-hashes -r .ci/lock.txt`. `.ci/sbom.json` says the same as CycloneDX 1.5, with licences and who
needs whom, `followup/licences.md` for people. Nothing says where a file was fetched from.
"""

import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, metadata
from pathlib import Path
from typing import Any

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parent.parent
LOCK, SBOM, LICENCES = ROOT / ".ci/lock.txt", ROOT / ".ci/sbom.json", ROOT / "followup/licences.md"
OURS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


@dataclass(frozen=True, slots=True)
class Package:
    """A package in the version that would be installed; `needs` are canonical names."""

    name: str
    version: str
    sha256: str
    licence: str
    needs: tuple[str, ...]

    @property
    def address(self) -> str:
        """As others name it (the package URL specification)."""
        return f"pkg:pypi/{self.name}@{self.version}"


def resolved() -> list[Package]:
    """What pip would install for a clinic, without what is there already."""
    asking = [
        sys.executable,
        "-m",
        "pip",
        "install",
        "--quiet",
        "--dry-run",
        "--ignore-installed",
        "--report",
        "-",
        str(ROOT),
    ]
    told = subprocess.run(asking, capture_output=True, text=True, check=True).stdout
    return packages(json.loads(told[told.index("{") :]))


def packages(report: dict[str, Any]) -> list[Package]:
    """The packages of pip's report, ours left out, by name."""
    found = [one for one in report["install"] if canonicalize_name(one["metadata"]["name"]) != OURS["name"]]
    known = {canonicalize_name(one["metadata"]["name"]) for one in found}
    made = [
        Package(
            canonicalize_name(one["metadata"]["name"]),
            one["metadata"]["version"],
            one["download_info"]["archive_info"]["hashes"]["sha256"],
            licence(one["metadata"]) or licence(_installed(one["metadata"]["name"])),
            tuple(sorted(needed(one["metadata"].get("requires_dist", ())) & known)),
        )
        for one in found
    ]
    return sorted(made, key=lambda package: package.name)


def needed(requirements: Any) -> set[str]:
    """The names of what is needed here without any extra."""
    read = [Requirement(text) for text in requirements]
    return {canonicalize_name(one.name) for one in read if one.marker is None or one.marker.evaluate({"extra": ""})}


def licence(told: dict[str, Any]) -> str:
    """What a package says of its licence: its expression, else its classifiers, else a short text; empty for nothing."""
    if said := told.get("license_expression"):
        return str(said)
    classes = [c.rpartition(" :: ")[2] for c in told.get("classifier", ()) if c.startswith("License ::")]
    named = [name for name in classes if name != "OSI Approved"]
    text = str(told.get("license") or "").strip()
    return " and ".join(named) or (text if len(text) < 60 else "")


def _installed(name: str) -> dict[str, Any]:
    """What the installed package says: an older pip leaves the licence's expression out of its report."""
    try:
        told = metadata(name)
    except PackageNotFoundError:
        return {}
    classes = told.get_all("Classifier") or ()
    return {"license_expression": told.get("License-Expression"), "license": told.get("License"), "classifier": classes}


def lock(found: list[Package]) -> str:
    return "".join(f"{p.name}=={p.version} --hash=sha256:{p.sha256}\n" for p in found)


def sbom(found: list[Package]) -> dict[str, Any]:
    """CycloneDX 1.5; the serial number and the time are left out, so that the same packages give the same file."""
    own = {"type": "application", "bom-ref": OURS["name"], "name": OURS["name"], "version": OURS["version"]}
    components = [
        {
            "type": "library",
            "bom-ref": p.address,
            "name": p.name,
            "version": p.version,
            "purl": p.address,
            "hashes": [{"alg": "SHA-256", "content": p.sha256}],
            "licenses": [{"license": {"name": p.licence}}],
        }
        for p in found
    ]
    by_name = {p.name: p.address for p in found}
    direct = sorted(by_name[name] for name in needed(OURS["dependencies"]))
    depends = [{"ref": OURS["name"], "dependsOn": direct}]
    depends += [{"ref": p.address, "dependsOn": [by_name[name] for name in p.needs]} for p in found]
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {"component": own},
        "components": components,
        "dependencies": depends,
    }


def licences(found: list[Package]) -> str:
    direct = needed(OURS["dependencies"])
    lines = [
        "# Licences of what the program stands on",
        "",
        "As each package says of itself; the program’s own licence is its owner’s to choose. Written by `python -m tests.supply`.",
        "",
        "| package | version | licence | asked for by us |",
        "|---|---|---|---|",
    ]
    lines += [f"| {p.name} | {p.version} | {p.licence} | {'yes' if p.name in direct else ''} |" for p in found]
    return "\n".join([*lines, ""])


def locked(text: str) -> Iterator[tuple[str, str, str]]:
    """Name, version and hash of each line of a lock file. Raises ValueError for a line that is none."""
    for line in text.splitlines():
        read = re.fullmatch(r"([a-z0-9-]+)==(\S+) --hash=sha256:([0-9a-f]{64})", line)
        if read is None:
            raise ValueError(f"“{line}” is no line of a lock file")
        yield read[1], read[2], read[3]


def main() -> None:
    found = resolved()
    LOCK.write_text(lock(found), encoding="utf-8")
    SBOM.write_text(json.dumps(sbom(found), indent=1) + "\n", encoding="utf-8")
    LICENCES.write_text(licences(found), encoding="utf-8")
    print(f"{len(found)} packages")


if __name__ == "__main__":
    main()
