"""The phone's own modules without a browser: they run in node, on what the server packs."""

import json
import shutil
import subprocess
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from followup.care.home import pack
from followup.care.reading.eye import load
from followup.clinical.surgery import Operation
from followup.config import Settings
from followup.records import Store
from followup.records.values import Device
from followup.resources import folder
from tests.conftest import OPERATED

Run = Callable[[str, Any], Any]


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """Runs a script that reads `given` and sets `answer`, beside the phone's modules; returns the answer."""
    node = shutil.which("node")
    assert node, "node is needed: install nodejs"
    for part in ("patient", "shared", "staff"):
        shutil.copytree(folder("static") / part, tmp_path / part)
    for helper in ("changed_clocks.js", "checked.js", "indexed_db.js", "outboxes.js", "parts.js"):
        shutil.copy(Path(__file__).with_name(helper), tmp_path)
    (tmp_path / "package.json").write_text('{"type": "module"}', encoding="utf-8")

    def run_(script: str, given: Any) -> Any:
        imports, _, body = script.partition("\n\n")
        whole = f"""{imports}
            let text = "";
            for await (const piece of process.stdin) text += piece;
            const given = JSON.parse(text);
            let answer;
            {body}
            process.stdout.write(JSON.stringify(answer));
        """
        (tmp_path / "script.js").write_text(whole, encoding="utf-8")
        told = subprocess.run(
            [node, "script.js"], cwd=tmp_path, input=json.dumps(given), capture_output=True, text=True, check=False
        )
        assert told.returncode == 0, told.stderr
        return json.loads(told.stdout)

    return run_


@pytest.fixture
def packed(
    store: Store, settings: Settings, device: Device, discharged: tuple[str, str]
) -> tuple[dict[str, Any], Operation]:
    made = pack.pack(store, settings.clinic, device, OPERATED + timedelta(days=3)).model_dump(mode="json")
    return made, load(store, discharged[0], settings.clinic.tz).operation
