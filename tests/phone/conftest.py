"""The phone's own modules without a browser: they run in node, on what the server packs."""

import json
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from subprocess import PIPE
from typing import Any

import pytest

from followup.care.home import enrol, pack
from followup.care.reading.eye import load
from followup.clinical.surgery import Operation
from followup.records import open_store
from followup.resources import folder
from tests.conftest import OPERATED, ZONE, Begun, clinic

Run = Callable[[str, Any], Any]


@pytest.fixture(scope="session")
def modules(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the phone's modules, and what stands in for a browser beside them."""
    beside = tmp_path_factory.mktemp("modules")
    for part in ("patient", "shared", "staff"):
        shutil.copytree(folder("static") / part, beside / part)
    for helper in ("changed_clocks.js", "checked.js", "host.js", "indexed_db.js", "outboxes.js", "parts.js"):
        shutil.copy(Path(__file__).with_name(helper), beside)
    (beside / "package.json").write_text('{"type": "module"}', encoding="utf-8")
    return beside


@pytest.fixture(scope="session")
def run(modules: Path) -> Iterator[Run]:
    """Runs a script that reads `given` and sets `answer`, beside the phone's modules; returns the answer."""
    node = shutil.which("node")
    assert node, "node is needed: install nodejs"
    with subprocess.Popen([node, "host.js"], cwd=modules, stdin=PIPE, stdout=PIPE, text=True) as host:
        assert host.stdin is not None
        assert host.stdout is not None
        to, from_ = host.stdin, host.stdout

        def run_(script: str, given: Any) -> Any:
            imports, _, body = script.partition("\n\n")
            whole = f"""import {{ parentPort, workerData as given }} from "node:worker_threads";
                {imports}
                let answer;
                {body}
                parentPort.postMessage(JSON.stringify(answer) ?? "null");
                process.exit(); // whatever still waits for its time limit, nobody waits for
            """
            (modules / "script.js").write_text(whole, encoding="utf-8")
            to.write(json.dumps({"script": "script.js", "given": given}) + "\n")
            to.flush()
            told = json.loads(from_.readline())
            assert "fault" not in told, told["fault"]
            return json.loads(told["answer"])

        yield run_
        to.close()


@pytest.fixture(scope="session")
def packed(begun: Begun, tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, Any], Operation]:
    """What the enrolled phone is sent on day 3, and the operation behind it."""
    with closing(open_store(Path(shutil.copy(begun.files["token"], tmp_path_factory.mktemp("packed"))))) as store:
        device = enrol.device(store, begun.token)
        assert device is not None
        made = pack.pack(store, clinic(), device, OPERATED + timedelta(days=3)).model_dump(mode="json")
        return made, load(store, begun.discharged[0], ZONE).operation
