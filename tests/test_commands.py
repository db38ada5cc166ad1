"""The clinic's own commands in real processes: init, staff, check, serve; and settings from file and environment."""

import os
import socket
import subprocess
from pathlib import Path

import pytest

from followup.config import ConfigError, load
from tests.conftest import COMMAND


def followup(*words: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
    everything = {**known, "FOLLOWUP_DATABASE": str(folder / "clinic.db"), **environment}
    return subprocess.run(
        [*COMMAND, *words],
        env=everything,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_a_new_clinic_gets_its_database_its_people_and_a_clean_bill(tmp_path: Path) -> None:
    assert followup("check", folder=tmp_path).returncode == 2
    assert followup("init", folder=tmp_path).returncode == 0
    again = followup("init", folder=tmp_path)
    assert (again.returncode, again.stderr.count("\n")) == (2, 1)
    added = followup(
        "staff",
        "--name",
        "N",
        "--role",
        "nurse",
        "--email",
        "n@t.invalid",
        "--password",
        "long enough words",
        folder=tmp_path,
    )
    assert added.stdout == "N can sign in as n@t.invalid\n"
    short = followup(
        "staff", "--name", "N", "--role", "nurse", "--email", "m@t.invalid", "--password", "short", folder=tmp_path
    )
    assert (short.returncode, short.stderr) == (2, "followup: a password needs at least 10 characters\n")
    assert "whole" in followup("check", folder=tmp_path).stdout


def test_a_port_in_use_is_said_plainly(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        done = followup("serve", "--port", str(taken.getsockname()[1]), folder=tmp_path)
    assert done.returncode == 2
    assert "choose another with --port" in done.stderr


def test_serving_without_a_database_says_how_to_make_one(tmp_path: Path) -> None:
    done = followup("serve", folder=tmp_path)
    assert (done.returncode, "followup init" in done.stderr) == (2, True)


def test_every_command_has_help() -> None:
    from followup.cli import cli

    commands = dict(cli.commands)
    commands |= {f"calc {name}": command for name, command in cli.commands["calc"].commands.items()}  # type: ignore[attr-defined]
    for name, command in commands.items():
        assert command.help, name


def test_the_environment_wins_over_the_settings_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text('[clinic]\nname = "Ours"\nzone = "Europe/Oslo"\n[server]\nport = 9000\n', encoding="utf-8")
    monkeypatch.setenv("FOLLOWUP_PORT", "9001")
    settings = load(file)
    assert (settings.clinic.name, settings.server.port, settings.clinic.tz.key) == ("Ours", 9001, "Europe/Oslo")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[clinic", "not TOML"),
        ('[clinic]\nzone = "Mars"', "clinic.zone.*Europe/Vienna"),
        ("[server]\nport = 99999", "server.port"),
        ("[surprise]\nx = 1", "surprise"),
    ],
)
def test_settings_that_cannot_be_name_the_setting(tmp_path: Path, text: str, says: str) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ConfigError, match=says):
        load(file)
    with pytest.raises(ConfigError, match="cannot be read"):
        load(tmp_path / "missing.toml")


def test_backup_and_restore_at_the_prompt(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    made = followup("backup", str(tmp_path / "kept"), folder=tmp_path)
    assert made.returncode == 0
    (copy,) = (tmp_path / "kept").iterdir()
    refused = followup("restore", str(copy), folder=tmp_path)
    assert (refused.returncode, "--replace" in refused.stderr) == (2, True)
    done = followup("restore", "--replace", str(copy), folder=tmp_path)
    assert (done.returncode, "before-restore" in done.stdout) == (0, True)
    wrong = followup("restore", "--replace", str(tmp_path / "nothing.db"), folder=tmp_path)
    assert (wrong.returncode, wrong.stderr.count("\n")) == (2, 1)
    assert followup("check", folder=tmp_path).returncode == 0
