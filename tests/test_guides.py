"""What README.md and followup/operating.md promise is so: answers, commands, settings, the drill, the unit, the container."""

import configparser
import importlib.util
import re
import shlex
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import get_args

import click
import pytest
from click.testing import CliRunner
from flask import Flask
from flask.testing import FlaskClient

from followup.cli import cli
from followup.config import Settings
from followup.protocols import book
from followup.records import keys
from followup.settings_file import ENVIRONMENT, host_name, load, of_clinic, of_machine, ready, table
from followup.web.anybody.pages import Health
from tests import mutate_clinical, mutate_promises
from tests.conftest import COMMAND
from tests.pages import parsed

ROOT = Path(__file__).parents[1]
README, OPERATING, DEVELOPERS = (
    (ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "followup/operating.md", "DEVELOPERS.md")
)
CALL = re.compile(r"^(?:\S*/)?followup(?: .*)?$")


def fenced(kind: str) -> str:
    found = re.search(rf"^```{kind}\n(.*?)^```$", OPERATING, re.M | re.S)
    assert found
    return found[1]


def indented(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.startswith("    ")]


def commands() -> list[str]:
    """Every call of the program in either guide: in indented and fenced code, in the unit, and in running text."""
    lines = indented(README + OPERATING) + fenced("sh drill").splitlines() + fenced("sh move").splitlines()
    lines += re.findall(r" (followup [a-z]+)$", fenced("sh container").replace("\\\n", ""), re.M)
    lines += [fenced("ini followup.service").split("ExecStart=")[1].splitlines()[0]]
    lines += re.findall(r"`(followup [^`]+)`", README + OPERATING)
    return [line.removeprefix("$ ").split("#")[0].strip() for line in lines if CALL.match(line.removeprefix("$ "))]


def resolved(call: str) -> tuple[click.Command, list[str]]:
    """The command that a call reaches, and the words after it."""
    words, command = shlex.split(call)[1:], cli
    if words[:1] == ["--config"]:
        words = words[2:]
    found: click.Command = command
    while isinstance(found, click.Group) and words and (below := named(found).get(words[0])):
        found, words = below, words[1:]
    return found, words


def named(group: click.Group) -> dict[str, click.Command]:
    """Each command of a group, also those that are loaded when they are asked for."""
    context = click.Context(group)
    return {name: command for name in group.list_commands(context) if (command := group.get_command(context, name))}


def test_the_example_in_the_readme_has_its_true_answer() -> None:
    block = README[README.index("    $ .venv/bin/followup calc") : README.index("`.venv/bin/followup calc course eye.json`")]
    asked, *told = [line.removeprefix("    ") for line in block.rstrip().splitlines()]
    made = CliRunner().invoke(cli, shlex.split(asked)[2:])
    assert made.output.rstrip().splitlines() == told


def test_the_table_of_settings_is_that_of_the_models() -> None:
    assert f"\n{table()}\n" in OPERATING
    for line in table().splitlines()[2:]:
        assert not line.endswith("| None |"), line
    for variable in (*ENVIRONMENT, keys.KEY_FILE, keys.FORMER_KEY_FILE, "FOLLOWUP_CONFIG"):
        assert f"`{variable}`" in OPERATING


def test_the_settings_shown_can_be_used(tmp_path: Path) -> None:
    block = OPERATING[OPERATING.index("    [clinic]\n") : OPERATING.index("What stands in the environment wins")]
    file = tmp_path / "clinic.toml"
    file.write_text("\n".join(indented(block)).replace("+00 …", "+00 1 234"), encoding="utf-8")
    assert ready(load(file)).server.backups == Path("/srv/backups")


def test_the_settings_shown_for_several_clinics_can_be_used(tmp_path: Path) -> None:
    for name in ("server", "north"):
        (tmp_path / f"{name}.toml").write_text(fenced(f"toml {name}.toml"), encoding="utf-8")
    assert of_machine(tmp_path / "server.toml", {}).server.workers == 4
    assert host_name(of_clinic(tmp_path / "north.toml").server.address) == "north.eyes.example"


def test_every_command_that_the_guides_name_is_there_with_its_options() -> None:
    calls = commands()
    assert len(calls) > 20
    for call in calls:
        command, words = resolved(call)
        assert command is not cli, call
        known = {name for parameter in command.params for name in parameter.opts} | {"--help"}
        assert {word for word in words if word.startswith("--")} <= known, call


def test_every_command_stands_in_the_readmes_table() -> None:
    rows = "\n".join(line for line in README.splitlines() if line.startswith("| `followup"))
    for name, command in named(cli).items():
        below = named(command) if isinstance(command, click.Group) else {}
        for word in (name, *below):
            assert re.search(rf"\b{word}\b", rows), f"{name} {word}"


def test_every_address_that_the_guides_name_is_one_of_the_program(app: Flask) -> None:
    folders = ("/etc/", "/home/", "/srv/")
    named = {path for path in re.findall(r"`(/[^\s`]*)`", README + OPERATING) if not path.startswith(folders)}
    assert {"/health", "/how-this-is-worked-out"} <= named
    routes = app.url_map.bind("localhost")
    assert {path for path in named if not routes.test(path)} == set()


def test_every_module_that_a_guide_names_can_be_run() -> None:
    """But `build`, which the line before it installs."""
    named = set(re.findall(r"python3? -m ([\w.]+)", README + OPERATING + DEVELOPERS)) - {"build"}
    assert {"venv", "tests.simulate"} <= named
    for name in named:
        found = importlib.util.find_spec(name)
        assert found, name
        assert not found.submodule_search_locations or importlib.util.find_spec(f"{name}.__main__"), name


def test_the_guide_names_each_change_that_no_test_can_notice() -> None:
    named = {file: int(times) for file, times in re.findall(r"`(\w+\.py)` (\d+) \(", DEVELOPERS)}
    assert named == Counter(key.partition(":")[0] for key in mutate_clinical.EQUIVALENT)
    assert ("none goes unnoticed" in DEVELOPERS) is (mutate_promises.EQUIVALENT == {})


def test_the_readme_says_what_a_surgeon_signs_and_where(as_surgeon: FlaskClient) -> None:
    words = {"rulebook": "warning rules", "reviews": "review visits", "postures": "posture plans"}
    row = next(line for line in README.splitlines() if line.startswith("| warning rules"))
    _, what, who, where, _ = row.split("|")
    assert what.split(":")[0].strip().split(", ") == [words[part] for part in book.PARTS]
    assert who.startswith(" a surgeon ")
    assert where == " *Protocols* "
    page = parsed(as_surgeon.get("/surgeon/protocols").text)
    assert page.one("h1").words == "Protocols"
    assert [section.one("h2").words.split()[0].lower() for section in page.one("main").all("section")] == list(book.PARTS)
    for part in book.PARTS:
        assert page.one("form", action=f"/surgeon/protocols/{part}/sign").words == "I have read it: sign"


def test_bash_completes_as_the_readme_switches_it_on(tmp_path: Path) -> None:
    (switch,) = re.findall(r"`(eval [^`]+)`", README)
    program = tmp_path / "followup"
    program.write_text(f"#!{sys.executable}\nfrom followup.cli import main\nmain()\n", encoding="utf-8")
    program.chmod(0o700)
    typed = {
        "followup sta": "staff",
        "followup calc bubble --agent s": "sf6 silicone-oil",
        "followup calc acuity 6/12 --notation l": "logmar letters",
    }
    asked = "".join(
        f"COMP_WORDS=({line}); COMP_CWORD={line.count(' ')}; COMPREPLY=(); _followup_completion followup; echo ${{COMPREPLY[@]}}\n"
        for line in typed
    )
    env = {"PATH": f"{tmp_path}:/usr/bin:/bin", "PYTHONPATH": str(ROOT)}
    done = subprocess.run(["bash", "-c", f"{switch}\n{asked}"], env=env, capture_output=True, text=True, check=False)
    assert (done.stdout.splitlines(), done.stderr) == (list(typed.values()), "")


def test_the_backup_drill_puts_a_copy_back_beside_the_clinic(tmp_path: Path) -> None:
    program = tmp_path / "bin" / "followup"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec {shlex.join(COMMAND)} "$@"\n', encoding="utf-8")
    program.chmod(0o700)
    (tmp_path / "clinic.toml").write_text(
        f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{tmp_path}/srv/clinic.db"\nbackups = "{tmp_path}/srv/backups"\n',
        encoding="utf-8",
    )
    (tmp_path / "srv").mkdir()
    before = """set -e
    followup init
    followup staff add --name N --role surgeon --email n@t.invalid --password 'several words here'
    followup backup /srv/backups
    """
    after = "followup check"
    script = (before + fenced("sh drill") + after).replace("/srv/", f"{tmp_path}/srv/").replace("--owner=followup ", "")
    path = f"{program.parent}:/usr/bin:/bin"
    done = subprocess.run(
        ["sh", "-c", script],
        cwd=tmp_path,
        env={"PATH": path, "PYTHONPATH": str(ROOT), "FOLLOWUP_CONFIG": str(tmp_path / "clinic.toml")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    *_, drilled, people, clinic = done.stdout.splitlines()
    assert drilled == clinic == "the database and the audit chain are whole"
    assert people.startswith("surgeon")
    assert sorted(p.name for p in (tmp_path / "srv").iterdir() if p.suffix == ".db" or p.is_dir()) == [
        "backups",
        "clinic.db",
    ]


def test_the_unit_may_write_where_the_settings_say() -> None:
    unit = configparser.ConfigParser(strict=False, interpolation=None)
    unit.optionxform = str  # type: ignore[assignment,method-assign]
    unit.read_string(fenced("ini followup.service"))
    service = unit["Service"]
    assert service["Environment"].startswith(f"{keys.KEY_FILE}=")
    assert resolved(service["ExecStart"])[0] is cli.commands["serve"]
    writable = service["ReadWritePaths"].split()
    for key in ("database", "backups"):
        assert any(re.search(rf'^    {key} = "{folder}[/"]', OPERATING, re.M) for folder in writable), key


def test_commands_run_as_the_account_of_the_unit_with_its_settings_and_secret() -> None:
    """One page, one way: what root made could not be read by the server, and what had no secret opened no keys."""
    unit = fenced("ini followup.service")
    alias = shlex.split(shlex.split(fenced("sh alias"))[1].removeprefix("followup="))
    started = shlex.split(unit.split("ExecStart=")[1].splitlines()[0])
    assert alias[:3] == ["runuser", "-u", unit.split("User=")[1].splitlines()[0]]
    assert f"FOLLOWUP_CONFIG={started[started.index('--config') + 1]}" in alias
    assert unit.split("Environment=")[1].splitlines()[0] in alias
    assert alias[-1] == started[0]
    for call in commands():
        words = shlex.split(call)
        named = words[words.index("--config") + 1] if "--config" in words else "/"
        assert named.startswith("/") or call in README + fenced("sh move"), call


def test_what_the_page_names_is_made_before_it_is_used() -> None:
    installing = OPERATING[OPERATING.index("## Installing") : OPERATING.index("## Proxy and TLS")]
    made = re.search(r"install --directory --owner=followup --mode=700 (.*)", installing)
    assert made
    assert made[1].split() == ["/srv/followup", "/srv/backups", "/etc/followup"]
    assert "> /etc/followup/key)" in installing
    assert "/etc/followup/clinic.toml" in installing


@pytest.mark.parametrize(
    "said", ["`/health` answers", "refuse settings that would break", "as plain text", "names a file with a long"]
)
def test_the_page_says_nothing_twice(said: str) -> None:
    assert OPERATING.count(said) == 1


def test_the_unit_does_not_start_again_what_was_refused() -> None:
    assert "RestartPreventExitStatus=2\n" in fenced("ini followup.service")


def test_each_thing_that_health_names_is_explained() -> None:
    names = get_args(get_args(Health.model_fields["stopped"].annotation)[0])
    for name in names:
        assert f"`{name}`" in OPERATING, name


def test_the_container_is_run_as_its_image_is_made() -> None:
    image = (ROOT / "Dockerfile").read_text(encoding="utf-8")
    (volume,) = re.findall(r"^VOLUME (\S+)$", image, re.M)
    (port,) = re.findall(r"^EXPOSE (\d+)$", image, re.M)
    run = fenced("sh container")
    assert run.count(f"followup-data:{volume} ") == 2
    assert f"--publish 127.0.0.1:{Settings().server.port}:{port} " in run
    assert set(re.findall(r"--env (FOLLOWUP_\w+)=", run)) <= {*ENVIRONMENT, keys.KEY_FILE, "FOLLOWUP_CONFIG"}
    assert set(re.findall(r"(FOLLOWUP_\w+)=", image)) == {"FOLLOWUP_DATABASE", "FOLLOWUP_HOST"}


def test_the_guide_invites_no_second_machine_onto_the_same_file() -> None:
    """What refuses one is in tests/test_serving.py."""
    assert "One server on one database, on one machine: a second one on the same file is refused" in OPERATING
    assert "SQLite's file must not lie on a network drive" in OPERATING


@pytest.mark.parametrize("word", ["drug", "fly", "round the clock", "certified", "free text"])
def test_the_readme_says_what_it_does_not_do(word: str) -> None:
    section = README[README.index("## What it does not do") : README.index("## Try it")]
    assert word in section


def test_the_pictures_are_there_small_and_said_in_words() -> None:
    """A page with three of them opens on a slow line: 60 kB each, common practice, no source."""
    shown = re.findall(r"!\[([^\]]+)\]\((\.pictures/\w+\.webp)\)", README)
    assert [Path(file).stem for _, file in shown] == ["phone", "eye", "today"]
    for words, file in shown:
        held = (ROOT / file).read_bytes()
        assert (held[:4], held[8:12]) == (b"RIFF", b"WEBP")  # RFC 9649 2.4
        assert len(held) < 60_000
        assert len(words.split()) >= 5
