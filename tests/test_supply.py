"""The lock file, the bill of materials and the list of licences say the same, and what `pyproject.toml` asks for."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests import supply
from tests.supply import LICENCES, LOCK, OURS, SBOM

LOCKED = {name: (version, sha256) for name, version, sha256 in supply.locked(LOCK.read_text(encoding="utf-8"))}
MATERIALS: dict[str, Any] = json.loads(SBOM.read_text(encoding="utf-8"))


def test_the_lock_holds_all_that_is_asked_for_in_a_version_that_will_do() -> None:
    for asked in map(Requirement, OURS["dependencies"]):
        version, _ = LOCKED[canonicalize_name(asked.name)]
        assert asked.specifier.contains(version), asked


def test_whatever_is_needed_is_locked_and_nothing_else() -> None:
    """From what we ask for, along who needs whom, every package of the lock is reached, and no other."""
    needs = {one["ref"]: one["dependsOn"] for one in MATERIALS["dependencies"]}
    assert {ref.partition("/")[2].partition("@")[0] for ref in needs[OURS["name"]]} == supply.needed(OURS["dependencies"])
    reached, waiting = set(), [*needs[OURS["name"]]]
    while waiting:
        ref = waiting.pop()
        if ref not in reached:
            reached.add(ref)
            waiting += needs[ref]
    assert {ref.removeprefix("pkg:pypi/").partition("@")[0] for ref in reached} == set(LOCKED)


def test_the_bill_of_materials_is_the_lock() -> None:
    """CycloneDX 1.5, the members that its JSON form asks for (from memory)."""
    assert (MATERIALS["bomFormat"], MATERIALS["specVersion"], MATERIALS["version"]) == ("CycloneDX", "1.5", 1)
    assert MATERIALS["metadata"]["component"]["version"] == OURS["version"]
    told = {one["name"]: (one["version"], one["hashes"][0]["content"]) for one in MATERIALS["components"]}
    assert told == LOCKED
    assert all(one["licenses"][0]["license"]["name"] for one in MATERIALS["components"])
    refs = [one["bom-ref"] for one in MATERIALS["components"]]
    assert len(refs) == len(set(refs))


def test_every_package_has_a_licence_in_the_list() -> None:
    rows = [line.strip("| ").split(" | ") for line in LICENCES.read_text(encoding="utf-8").splitlines() if "|" in line][2:]
    assert {row[0]: row[1] for row in rows} == {name: version for name, (version, _) in LOCKED.items()}
    assert all(row[2] for row in rows)


@pytest.mark.parametrize("file", [LOCK, SBOM, LICENCES], ids=lambda path: path.name)
def test_nothing_says_where_a_file_was_fetched_from(file: Path) -> None:
    assert "://" not in file.read_text(encoding="utf-8")


def test_pip_takes_the_lock_and_asks_for_its_hashes(tmp_path: Path) -> None:
    """Without any index: pip reads every line, and refuses a package that it cannot find, not the file."""
    asking = [sys.executable, "-m", "pip", "install", "--dry-run", "--no-deps", "--no-index", "--ignore-installed"]
    asking += ["--require-hashes", "--find-links", str(tmp_path), "-r", str(LOCK)]
    said = subprocess.run(asking, capture_output=True, text=True, check=False).stderr
    assert f"No matching distribution found for {next(iter(LOCKED))}==" in said


@pytest.mark.parametrize("line", ["requests", "requests==2.0", "requests==2.0 --hash=md5:aa", "requests @ file:///x"])
def test_a_line_without_a_version_or_hash_is_no_line_of_a_lock(line: str) -> None:
    with pytest.raises(ValueError, match="no line of a lock file"):
        list(supply.locked(line))
