"""An installed wheel in an empty folder: the demo and the server run from it, with nothing of the checkout."""

import os
import re
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

ROOT = Path(__file__).parent.parent


def run(*words: str, cwd: Path) -> str:
    environment = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV")}
    done = subprocess.run(words, cwd=cwd, env=environment, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_wheel_runs_by_itself_in_an_empty_folder(tmp_path: Path) -> None:
    run(sys.executable, "-m", "build", "--wheel", "--outdir", str(tmp_path / "dist"), str(ROOT), cwd=tmp_path)
    wheel = next((tmp_path / "dist").glob("*.whl"))
    run(sys.executable, "-m", "venv", "venv", cwd=tmp_path)
    python = str(tmp_path / "venv" / "bin" / "python")
    run(python, "-m", "pip", "install", "--quiet", str(wheel), cwd=tmp_path)
    empty = tmp_path / "empty"
    empty.mkdir()
    where = run(python, "-c", "import followup, demo_db; print(followup.__file__, demo_db.__file__)", cwd=empty)
    assert str(tmp_path) in where
    assert str(ROOT) not in where
    followup = str(tmp_path / "venv" / "bin" / "followup")
    assert '"letters": 70' in run(followup, "calc", "acuity", "6/12", "--json", cwd=empty)
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    with subprocess.Popen(
        [followup, "demo", "--port", str(port)], cwd=empty, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as served:
        try:
            assert served.stdout is not None
            said = "".join(iter(served.stdout.readline, "Stop it with Ctrl-C.\n"))
            assert said.count("@demo.invalid") == 4
            link = re.search(r"http://\S+/enrol\?code=\w+", said)
            assert link
            page = _fetch(link[0])
            assert "Set up this phone" in page
            assert _fetch(f"http://127.0.0.1:{port}/static/patient/app.js")
            assert "Sundergate Eye Clinic" in _fetch(f"http://127.0.0.1:{port}/")
        finally:
            served.terminate()
            served.wait(timeout=30)
    assert [f.name for f in empty.iterdir()] == [".followup-demo"]


def _fetch(address: str) -> str:
    deadline = time.monotonic() + 30
    while True:
        try:
            with urllib.request.urlopen(address, timeout=5) as answer:
                return str(answer.read().decode())
        except OSError:
            if time.monotonic() > deadline:
                raise
            time.sleep(0.2)
