"""The clinic's own commands in real processes: init, staff, check, serve; and settings from file and environment."""

import errno
import os
import socket
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.learning import signing
from followup.cli import ELSEWHERE, cli, main
from followup.config import Clinic, ConfigError, Messages, Settings, SignIn
from followup.protocols import book
from followup.records import Store, audit, backup, open_store, watch
from followup.records.store import why_away
from followup.settings_file import load, ready
from tests.conftest import COMMAND, NOW


def followup(*words: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
    everything = {**known, "FOLLOWUP_DATABASE": str(folder / "clinic.db"), "FOLLOWUP_PHONE": "+00 1 234", **environment}
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


@pytest.mark.parametrize("host", ["192.0.2.7", "no.such.host.invalid"])
def test_an_address_that_is_not_this_machine_s_is_said_plainly(store: Store, host: str) -> None:
    """Neither is anybody's: RFC 5737 and RFC 6761 keep them for examples."""
    done = CliRunner().invoke(
        cli, ["serve", "--database", str(store.path), "--host", host], env={"FOLLOWUP_PHONE": "+00 1 234"}
    )
    assert isinstance(done.exception, ConfigError)
    assert f"cannot listen on {host}:8000" in str(done.exception)
    assert str(done.exception).endswith("choose another with --host")


def test_serving_without_a_database_says_how_to_make_one(tmp_path: Path) -> None:
    done = followup("serve", folder=tmp_path)
    assert (done.returncode, "followup init" in done.stderr) == (2, True)


@pytest.mark.parametrize(
    "words", [("check",), ("staff", "list"), ("backup", "kept"), ("close",), ("close", "--undo"), ("serve",)], ids=" ".join
)
def test_another_program_s_database_is_refused_by_every_command(tmp_path: Path, words: tuple[str, ...]) -> None:
    path = tmp_path / "clinic.db"
    with closing(sqlite3.connect(path)) as foreign:
        foreign.execute("CREATE TABLE notes (text)")
        foreign.commit()
    before = path.read_bytes()
    done = followup(*words, folder=tmp_path)
    assert (done.returncode, done.stderr) == (2, f"followup: {path} is no database of followup; nothing was changed\n")
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "words",
    [
        ("backup", "{file}/x"),
        ("export", "csv", "{file}/x"),
        ("export", "patient", "T-1", "{file}/x"),
        ("import", "operations", "{file}/x"),
        ("demo", "--folder", "{file}/x", "--no-serve"),
        ("demo", "--folder", "/proc/x", "--no-serve"),
        ("--config", "{file}/x", "check"),
        ("calc", "course", "{file}/x"),
        ("calc", "course", "--rulebook", "{file}/x", "eye.json"),
    ],
    ids=" ".join,
)
def test_a_path_that_cannot_be_used_is_one_line(
    store: Store,
    eye_id: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: tuple[str, ...],
) -> None:
    """A file where a folder is wanted: that stops the system's administrator too, who tests as root."""
    (tmp_path / "file").touch()
    monkeypatch.setenv("FOLLOWUP_DATABASE", str(store.path))
    said = called(monkeypatch, capsys, *(word.format(file=tmp_path / "file") for word in words))
    assert said.startswith("followup: ")
    assert "[Errno" not in said
    assert str(tmp_path / "file") in said or "/proc/x" in said


@pytest.mark.parametrize(
    "words",
    [("init",), ("check",), ("serve",), ("restore", "{copy}"), ("keys", "rotate"), ("close",), ("staff", "list")],
    ids=" ".join,
)
def test_a_database_that_cannot_be_reached_is_one_line(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    (tmp_path / "file").touch()
    copy = backup.backup(store, tmp_path / "kept", NOW)
    monkeypatch.setenv("FOLLOWUP_DATABASE", str(tmp_path / "file" / "clinic.db"))
    monkeypatch.setenv("FOLLOWUP_PHONE", "+00 1 234")
    assert str(tmp_path / "file") in called(monkeypatch, capsys, *(word.format(copy=copy) for word in words))


@pytest.mark.parametrize("words", [("staff", "end", "nurse@test.invalid"), ("close",)], ids=" ".join)
def test_a_database_that_another_program_holds_is_one_line(
    store: Store,
    nurse: Actor,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: tuple[str, ...],
) -> None:
    monkeypatch.setenv("FOLLOWUP_DATABASE", str(store.path))
    monkeypatch.setattr("followup.records.store.BUSY_MS", 1)
    store.close()
    with closing(sqlite3.connect(store.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        said = called(monkeypatch, capsys, *words)
    assert said.startswith("followup: the database cannot be used now: another program is at work on it")


def test_a_server_whose_database_is_held_is_started_again(
    store: Store, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The unit starts again what ended with 1: whoever holds it may have ended by then."""
    monkeypatch.setenv("FOLLOWUP_DATABASE", str(store.path))
    monkeypatch.setenv("FOLLOWUP_PHONE", "+00 1 234")
    monkeypatch.setattr("followup.records.store.BUSY_MS", 1)
    monkeypatch.setattr("followup.serving.serve", lambda _: Store(store.path).execute("DELETE FROM tries"))
    monkeypatch.setattr(sys, "argv", ["followup", "serve"])
    with closing(sqlite3.connect(store.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(SystemExit) as ended:
            main()
    assert ended.value.code == 1
    assert "another program is at work on it" in capsys.readouterr().err


def test_a_fault_of_ours_is_not_said_to_be_the_database_s(store: Store) -> None:
    with pytest.raises(sqlite3.OperationalError) as fault:
        store.rows("SELECT nothing FROM nowhere")
    assert why_away(fault.value) == ""


def test_a_head_that_was_cut_off_is_named_and_ends_no_command(store: Store, nurse: Actor, tmp_path: Path) -> None:
    """Power that fails, or a disk that is full, while a line is written."""
    kept, clinic = tmp_path / "kept", store.path
    copy = backup.backup(store, kept, NOW)
    audit.keep_head(store, kept, NOW)
    with (kept / audit.HEADS).open("a", encoding="utf-8") as file:
        file.write("\n2027-03-05T10:0")
    audit.keep_head(store, kept, NOW)
    store.close()
    known = {"FOLLOWUP_DATABASE": str(clinic), "FOLLOWUP_BACKUPS": str(kept)}
    done = followup("check", folder=tmp_path, **known)
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.startswith(f"line 3 of {kept / audit.HEADS} is no head of the trail")
    put_back = followup("restore", "--replace", str(copy), folder=tmp_path, **known)
    assert (put_back.returncode, put_back.stderr) == (0, "")
    assert audit.heads_kept(kept)[-1].restored


def test_a_machine_that_is_short_of_something_is_no_fault_of_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """The unit starts again what ended with 1, and not what was refused with 2."""

    def short(**_: object) -> None:
        raise BlockingIOError(errno.EAGAIN, "Resource temporarily unavailable")

    monkeypatch.setattr(cli, "main", short)
    with pytest.raises(BlockingIOError):
        main()


def called(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What the command line says of a call that it refuses: one line, with exit code 2."""
    monkeypatch.setattr(sys, "argv", ["followup", *words])
    with pytest.raises(SystemExit) as ended:
        main()
    told = capsys.readouterr()
    assert (ended.value.code, told.out, told.err.count("\n")) == (2, "", 1)
    return told.err


def test_every_command_has_help() -> None:
    context = click.Context(cli)
    for name in cli.list_commands(context):
        command = cli.get_command(context, name)
        assert command is not None
        for one in (command, *(command.commands.values() if isinstance(command, click.Group) else ())):
            assert one.help, one.name


def test_help_says_of_each_command_what_the_command_says_of_itself() -> None:
    context = click.Context(cli)
    for name, (_, _, line) in ELSEWHERE.items():
        command = cli.get_command(context, name)
        assert command is not None
        assert command.help is not None
        assert line.endswith("."), "it does not break off"
        assert command.help.startswith(line.removesuffix(".")), name


def test_help_loads_nothing_that_only_a_command_needs() -> None:
    """What takes longest to load: a process that has read it is slow, however quick the machine."""
    heavy = "{'sqlite_utils', 'pydantic', 'flask', 'granian', 'cryptography', 'networkx', 'followup.clinical'}"
    told = f"import atexit, sys; atexit.register(lambda: print('loaded', sorted({heavy} & set(sys.modules))))"
    done = subprocess.run(
        [sys.executable, "-c", f"{told}; from followup.cli import main; main()", "--help"], capture_output=True, text=True
    )
    assert "The clinical core at the prompt." in done.stdout
    assert done.stdout.endswith("loaded []\n")


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
        ("[surprise]\nx = 1", "surprise.*clinic, server, messages"),
        ('[clinic]\nphon = "1"', "clinic.phon.*accepted are: name, place, phone"),
        ('[clinic]\nphone = "(set it)"', "clinic.phone.*digits"),
        ("[clinic]\nplaces = { monday = 3 }", "clinic.places.*monday.*mon, tue"),
        ("[clinic]\nplaces = { mon = -3 }", "clinic.places.*0 to 1000"),
        ("[clinic]\nplaces = 12", r"clinic.places.*\{ mon = 12"),
        ("[clinic]\nplaces = {}", "clinic.places.*nobody could be booked"),
        ('[clinic]\nclosed = ["soon"]', "clinic.closed.*soon.*2026-12-24"),
        ('[clinic]\nclosed = ["24.12.2026"]', "clinic.closed.*2026-12-24"),
        ('[clinic]\ncountry = "Austria"', "clinic.country.*Austria.*AT"),
        ('[clinic]\ncountry = "AT"\nsubdivision = "Vienna"', "clinic.subdivision.*Vienna.*1, 2, 3"),
        ('[clinic]\nsubdivision = "9"', "clinic.subdivision.*none without a country"),
        ('[clinic]\nlanguage = "xx"', "clinic.language.*en, de, es, ar"),
        ('[clinic]\non_call_email = "a@[b.c"', "clinic.on_call_email.*name@example.org"),
        ('[sign_in]\nissuer = "http://login.example"', "sign_in.issuer.*https"),
        ('[sign_in]\nissuer = "https://login.example/?x"', "sign_in.issuer.*https"),
        ('[sign_in]\nissuer = "https:///x"', "sign_in.issuer.*https"),
        ('[sign_in]\nissuer = "https://login.example"', "sign_in.*client_id and client_secret_file are needed"),
        ("[sign_in]\npasswords = false", "sign_in.*nobody could sign in"),
        ('[clinic]\nname = " "', "clinic.name.*empty"),
        *(
            (f'[server]\naddress = "{address}"', "server.address.*write https://eyes.example")
            for address in (
                "eyes.example",
                "ftp://eyes.example",
                "https://eyes.example/path",
                "https://eyes.example?x",
                "https://somebody@eyes.example",
                "https://",
                "https:///path",
                "https://two words.example",
                "https://eyes.example:port",
                "https://eyes.example:0",
                " https://eyes.example",
                "https://[::1",
            )
        ),
        ('[sign_in]\nclaim = "name"', "sign_in.claim.*email.*sub"),
        ("server = 5", r"setting server: .*\[server\]"),
        ("clinic = []", r"setting clinic: .*\[clinic\]"),
    ],
)
@pytest.mark.parametrize("port", ["", "9000"])
def test_settings_that_cannot_be_name_the_setting(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, says: str, port: str
) -> None:
    if port and not text.startswith("[server]"):
        monkeypatch.setenv("FOLLOWUP_PORT", port)
    file = tmp_path / "clinic.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ConfigError, match=says):
        load(file)
    with pytest.raises(ConfigError, match="cannot be read"):
        load(tmp_path / "missing.toml")


@pytest.mark.parametrize(
    "address",
    [
        "https://eyes.example",
        "https://eyes.example/",
        "https://eyes.example:8443",
        "http://192.0.2.7:8000",
        "http://[2001:db8::1]:8000",
        "http://localhost:8000",
        "https://äugen.example",
        "",
    ],
)
def test_addresses_that_phones_can_reach_are_taken(tmp_path: Path, address: str) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text(f'[server]\naddress = "{address}"', encoding="utf-8")
    assert load(file).server.address == address


def test_an_empty_folder_of_backups_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text('[server]\nbackups = ""', encoding="utf-8")
    assert load(file).server.backups is None
    monkeypatch.setenv("FOLLOWUP_BACKUPS", "")
    assert load().server.backups is None


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"server": {"port": 0}}, "setting server.port: 0 is no port"),
        (
            {"clinic": {"on_call_email": "a@b.example"}},
            "setting clinic.on_call_email: no mail leaves without messages.smtp_host",
        ),
        (
            {"clinic": {"audit_email": "a@b.example"}},
            "setting clinic.audit_email: no mail leaves without messages.smtp_host",
        ),
    ],
)
def test_a_clinic_that_would_not_be_reached_does_not_start(changes: dict[str, dict[str, object]], says: str) -> None:
    made = {"clinic": {"phone": "+00 1 234"}, **changes}
    with pytest.raises(ConfigError, match=says):
        ready(Settings.model_validate({**made, "clinic": {"phone": "+00 1 234", **made["clinic"]}}))
    sent = {"smtp_host": "mail.example", "sender": "clinic@eyes.example"}
    assert ready(Settings(clinic=Clinic(phone="+00 1 234", audit_email="a@b.example"), messages=Messages(**sent)))


@pytest.mark.parametrize("where", ["a file", "below a file", "there", "still to be made"])
def test_check_names_a_folder_of_backups_that_cannot_be_written(tmp_path: Path, where: str) -> None:
    followup("init", folder=tmp_path)
    (tmp_path / "file").touch()
    (tmp_path / "kept").mkdir()
    folder = tmp_path / {"a file": "file", "below a file": "file/kept", "there": "kept", "still to be made": "a/b"}[where]
    done = followup("check", folder=tmp_path, FOLLOWUP_BACKUPS=str(folder))
    refused = where.endswith("file")
    assert done.returncode == (1 if refused else 0)
    assert (f"setting server.backups: no copy can be written to {folder}\n" == done.stdout) is refused
    assert not (tmp_path / "a").exists()


@pytest.mark.parametrize("secret", [None, "", " \n"])
def test_a_directory_whose_secret_cannot_be_read_starts_nothing(tmp_path: Path, secret: str | None) -> None:
    file = tmp_path / "secret"
    if secret is not None:
        file.write_text(secret, encoding="utf-8")
    ways = SignIn(issuer="https://login.example", client_id="x", client_secret_file=file)
    with pytest.raises(ConfigError, match=r"sign_in\.client_secret_file.*cannot be read, or is empty"):
        ready(Settings(clinic=Clinic(phone="+00 1 234"), sign_in=ways))


def test_backup_and_restore_at_the_prompt(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    made = followup("backup", str(tmp_path / "kept"), folder=tmp_path)
    assert made.returncode == 0
    (copy,) = (tmp_path / "kept").iterdir()
    refused = followup("restore", str(copy), folder=tmp_path)
    assert (refused.returncode, "--replace" in refused.stderr) == (2, True)
    done = followup("restore", "--replace", str(copy), folder=tmp_path)
    assert (done.returncode, "before-restore" in done.stdout) == (0, True)
    with closing(open_store(tmp_path / "clinic.db")) as store:
        assert [(entry.action, entry.subject) for entry in audit.latest(store)[:1]] == [("restored", copy.name)]
    wrong = followup("restore", "--replace", str(tmp_path / "nothing.db"), folder=tmp_path)
    assert (wrong.returncode, wrong.stderr.count("\n")) == (2, 1)
    assert followup("check", folder=tmp_path).returncode == 0


def test_what_the_clinic_works_by_and_who_signed_it_at_the_prompt(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    text = followup("protocol", "show", "rulebook", folder=tmp_path)
    assert (text.stdout, text.stderr) == (book.draft_text("rulebook"), "a draft: nobody has signed this text\n")
    with closing(open_store(tmp_path / "clinic.db")) as store:
        id = accounts.add_staff(store, NOW, "Sol Surgeon", "surgeon", "s@t.invalid", "long enough words")
        by = Desk(store, NOW, Actor(id, "Sol Surgeon", "surgeon"), UTC)
        own = text.stdout.replace("[[rules]]", "# ours\n[[rules]]", 1)
        signing.sign(by, "rulebook", signing.save(by, "rulebook", own))
    for words in (("protocol",), ("protocol", "list")):
        lines = followup(*words, folder=tmp_path).stdout.splitlines()
        assert [line.split(maxsplit=2)[::2] for line in lines] == [
            ["rulebook", "signed by Sol Surgeon on 2027-03-05"],
            ["reviews", "draft: not signed"],
            ["postures", "draft: not signed"],
        ]
    shown = followup("protocol", "show", "rulebook", folder=tmp_path)
    assert (shown.stdout, shown.stderr) == (own, "")
    assert followup("protocol", "show", "spells", folder=tmp_path).returncode == 2


@pytest.mark.parametrize("phone", ["", "0000000", "12"])
@pytest.mark.parametrize("command", ["init", "serve", "check"])
def test_a_clinic_without_a_number_to_call_does_not_start(tmp_path: Path, command: str, phone: str) -> None:
    if command != "init":
        followup("init", folder=tmp_path)
    done = followup(command, folder=tmp_path, FOLLOWUP_PHONE=phone)
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert "setting clinic.phone" in done.stderr
    assert (tmp_path / "clinic.db").exists() == (command != "init")


@pytest.mark.parametrize("how", ["no file", "a file", "a variable"])
def test_whoever_named_no_settings_file_is_told_so(tmp_path: Path, how: str) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text('[clinic]\nname = "Ours"\n', encoding="utf-8")
    option = ("--config", str(file)) if how == "a file" else ()
    named = {"FOLLOWUP_CONFIG": str(file)} if how == "a variable" else {}
    said = followup(*option, "init", folder=tmp_path, FOLLOWUP_PHONE="", **named).stderr
    assert "setting clinic.phone: it is missing" in said
    assert ("no settings file was named, by --config or FOLLOWUP_CONFIG" in said) is (how == "no file")


@pytest.mark.parametrize("command", ["init", "serve", "check"])
def test_settings_that_would_break_later_are_refused_before_anything_is_made(tmp_path: Path, command: str) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text("[clinic]\nplaces = { monday = 3 }\n", encoding="utf-8")
    done = followup(command, folder=tmp_path, FOLLOWUP_CONFIG=str(file))
    assert (done.returncode, done.stderr.count("\n"), "“monday”" in done.stderr) == (2, 1, True)
    assert [path.name for path in tmp_path.iterdir()] == ["clinic.toml"]


def test_the_core_at_the_prompt_needs_no_clinic(tmp_path: Path) -> None:
    assert followup("calc", "acuity", "6/12", folder=tmp_path, FOLLOWUP_PHONE="").returncode == 0


def test_an_option_that_cannot_be_is_one_line(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    done = followup("serve", "--port", "99999", folder=tmp_path)
    assert (done.returncode, done.stderr.count("\n"), "server.port" in done.stderr) == (2, 1, True)


def test_closed_days_may_be_dates_or_text(tmp_path: Path) -> None:
    file = tmp_path / "clinic.toml"
    file.write_text('[clinic]\nclosed = [2026-12-24, "2026-12-31"]\ncountry = "at"\nsubdivision = "9"\n', encoding="utf-8")
    assert (load(file).clinic.closed, load(file).clinic.country) == (["2026-12-24", "2026-12-31"], "AT")


def test_check_says_a_broken_page_in_one_line(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    path = tmp_path / "clinic.db"
    with closing(sqlite3.connect(path)) as database:
        page = database.execute("SELECT rootpage FROM sqlite_master WHERE name = 'audit'").fetchone()[0]
        size = database.execute("PRAGMA page_size").fetchone()[0]
    with path.open("r+b") as file:
        file.seek((page - 1) * size)
        file.write(b"\xff" * size)
    done = followup("check", folder=tmp_path)
    assert (done.returncode, done.stdout.count("\n"), done.stderr) == (1, 1, "")
    assert "the database file is damaged" in done.stdout


def test_check_names_what_is_not_working(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    store = open_store(tmp_path / "clinic.db")
    watch.note(store, NOW, "e-mail", "staff:1", "e-mail: 550 unknown")
    store.close()
    done = followup("check", folder=tmp_path)
    assert done.returncode == 1
    assert done.stdout == "not working: e-mail staff:1, 1 times since 2027-03-05 10:00 UTC (e-mail: 550 unknown)\n"


def test_accounts_are_listed_changed_and_ended(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    first = ("--name", "Sol S", "--role", "surgeon", "--email", "s@t.invalid", "--password", "several words here")
    assert followup("staff", "add", *first, folder=tmp_path).stdout == "Sol S can sign in as s@t.invalid\n"
    for what, none in (("sessions", "s@t.invalid is signed in nowhere\n"), ("passkeys", "s@t.invalid has no passkey\n")):
        assert followup("staff", what, "s@t.invalid", folder=tmp_path).stdout == none
    second = ("--name", "Ada A", "--role", "Administrator", "--email", "a@t.invalid", "--password", "several words here")
    assert followup("staff", *second, folder=tmp_path).returncode == 0
    listed = followup("staff", "list", folder=tmp_path).stdout.splitlines()
    assert [line.split()[:2] for line in listed] == [["administrator", "a@t.invalid"], ["surgeon", "s@t.invalid"]]
    changed = followup("staff", "password", "a@t.invalid", "--password", "quite another sentence", folder=tmp_path)
    assert changed.stdout == "a@t.invalid has a new password\n"
    weak = followup("staff", "password", "a@t.invalid", "--password", "aaaaaaaaaa", folder=tmp_path)
    assert (weak.returncode, weak.stderr.count("\n")) == (2, 1)
    assert followup("staff", "sessions", "a@t.invalid", "--end", folder=tmp_path).stdout == "ended: 0\n"
    told = [followup("staff", "directory", "a@t.invalid", *subject, folder=tmp_path).stdout for subject in (["p7"], [])]
    assert told == ["a@t.invalid is p7 there\n", "nothing is noted of a@t.invalid there\n"]
    assert followup("staff", "passkeys", "a@t.invalid", "--remove", folder=tmp_path).stdout == "removed: 0\n"
    assert followup("staff", "end", "a@t.invalid", folder=tmp_path).stdout == "a@t.invalid cannot sign in any more\n"
    gone = followup("staff", "end", "a@t.invalid", folder=tmp_path)
    assert (gone.returncode, gone.stderr) == (2, "followup: nobody has an account with the address a@t.invalid\n")
    last = followup("staff", "end", "s@t.invalid", folder=tmp_path)
    assert (last.returncode, "only surgeon" in last.stderr) == (2, True)
    missing = followup("staff", "add", "--name", "X", folder=tmp_path)
    assert (missing.returncode, missing.stderr) == (2, "followup: --role is missing\n")
    assert followup("check", folder=tmp_path).returncode == 0
