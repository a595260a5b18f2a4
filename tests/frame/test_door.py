"""The door of the contract's commands: every status it can exit with, seen from outside."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from config import door

CHECKOUT = Path(__file__).resolve().parents[2]

# Runs the command `fake` from the module fake.py in the working directory.
DOOR = (
    f"import sys; sys.path[:0] = ['.', {str(CHECKOUT)!r}]\n"
    "from config import door\n"
    "door.COMMANDS['fake'] = 'fake'\n"
    "sys.exit(door.main(['manage.py', 'fake', *sys.argv[1:]]))\n"
)
BUFFERED = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
HEAD = (
    "import os, signal, sys\n"
    "SUMMARY = 'Does as it is told.'\n"
    "def add_arguments(parser):\n"
    "    parser.add_argument('file', metavar='FILE')\n"
    "    parser.add_argument('--json', action='store_true')\n"
)


@pytest.fixture
def write(tmp_path):
    """Write the fake command's module; `body` is what `run(options)` does."""

    def write(body: str, head: str = HEAD) -> None:
        (tmp_path / "fake.py").write_text(f"{head}def run(options):\n    {body}\n")

    return write


@pytest.fixture
def run(tmp_path):
    """Run the fake command with arguments."""

    def run(*arguments: str, stdout=subprocess.PIPE, flags: tuple[str, ...] = ()):
        return subprocess.run(
            [sys.executable, *flags, "-c", DOOR, *arguments],
            cwd=tmp_path,
            env=BUFFERED,
            stdin=subprocess.DEVNULL,
            stdout=stdout,
            stderr=subprocess.PIPE,
            encoding="utf-8",
        )

    return run


@pytest.mark.parametrize("answer", [0, 1, 2, 3])
def test_an_answer_is_the_status(write, run, answer):
    write(f"print('ready'); return {answer}")
    done = run("kit.json")
    assert (done.returncode, done.stdout, done.stderr) == (answer, "ready\n", "")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        pytest.param([], "the following arguments are required: FILE", id="no file"),
        pytest.param(["kit.json", "--jsn"], "unrecognized arguments: --jsn", id="unknown option"),
        pytest.param(["kit.json", "--js"], "unrecognized arguments: --js", id="half an option"),
        pytest.param(["kit.json", "other.json"], "unrecognized arguments: other.json", id="two files"),
    ],
)
def test_wrong_usage_is_64(write, run, arguments, said):
    write("return 0")
    done = run(*arguments)
    assert (done.returncode, done.stdout) == (64, "")
    assert done.stderr.startswith("usage: manage.py fake ")
    assert done.stderr.endswith(f"manage.py fake: {said}\n")


def test_help_is_0(write, run):
    write("return 3")
    done = run("--help")
    assert (done.returncode, done.stderr) == (0, "")
    assert "Does as it is told." in done.stdout


def test_an_unreadable_file_is_66_in_one_sentence(write, run):
    write("from layouts.errors import UnreadableFile; raise UnreadableFile('kit.json cannot be read: no such file')")
    done = run("kit.json")
    assert (done.returncode, done.stdout) == (66, "")
    assert done.stderr == "manage.py: kit.json cannot be read: no such file\n"


def test_a_part_that_cannot_start_is_70_in_one_sentence(write, run):
    write("from layouts.errors import CannotStart; raise CannotStart('the clock does not start')")
    done = run("kit.json")
    assert (done.returncode, done.stdout, done.stderr) == (70, "", "manage.py: the clock does not start\n")


@pytest.mark.parametrize(
    ("body", "named"),
    [
        pytest.param("1 / 0", "ZeroDivisionError", id="a defect"),
        pytest.param("open('/nowhere/else')", "FileNotFoundError", id="a file other than FILE"),
        pytest.param("raise MemoryError", "MemoryError", id="no memory"),
        pytest.param("run(options)", "RecursionError", id="endless recursion"),
        pytest.param("sys.exit(1)", "SystemExit: 1", id="an exit of its own"),
        pytest.param("return None", "returned None", id="no answer"),
        pytest.param("return True", "returned True", id="true is not 1"),
        pytest.param("return 4", "returned 4", id="an unknown answer"),
        pytest.param("raise BrokenPipeError('the child went away')", "BrokenPipeError", id="the pipe to a child"),
        pytest.param(
            "import django.conf; django.conf.settings.configure(); return django.conf.settings.KITPROOF",
            "AttributeError",
            id="settings",
        ),
    ],
)
def test_whatever_else_is_70_with_the_traceback(write, run, body, named):
    write(body)
    done = run("kit.json")
    assert (done.returncode, done.stdout) == (70, "")
    assert "Traceback (most recent call last)" in done.stderr
    assert named in done.stderr


@pytest.mark.parametrize(
    ("head", "named"),
    [
        pytest.param("import no_such_module\n", "ModuleNotFoundError", id="a missing import"),
        pytest.param("def broken(:\n", "SyntaxError", id="no Python"),
        pytest.param("raise SystemExit(2)\n", "SystemExit: 2", id="an exit while importing"),
        pytest.param("SUMMARY = ''\n", "add_arguments", id="no command"),
    ],
)
def test_a_module_that_fails_to_load_is_70(write, run, head, named):
    write("return 0", head=head)
    done = run("kit.json")
    assert (done.returncode, done.stdout) == (70, "")
    assert named in done.stderr


def test_ctrl_c_is_130_without_a_word(write, run):
    write("os.kill(os.getpid(), signal.SIGINT); import time; time.sleep(10); return 0")
    done = run("kit.json")
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "")


@pytest.mark.parametrize("flags", [pytest.param((), id="buffered"), pytest.param(("-u",), id="unbuffered")])
@pytest.mark.parametrize("lines", [pytest.param(1, id="little"), pytest.param(100_000, id="much")])
def test_a_reader_that_went_away_is_141_without_a_word(write, tmp_path, lines, flags):
    write(f"print('line\\n' * {lines}); return 0")
    with subprocess.Popen(
        [sys.executable, *flags, "-c", f"import time; time.sleep(0.2)\n{DOOR}", "kit.json"],
        cwd=tmp_path,
        env=BUFFERED,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
    ) as command:
        assert command.stdout is not None
        command.stdout.close()
        assert command.stderr is not None
        assert command.stderr.read() == ""
    assert command.returncode == 141


@pytest.mark.parametrize("flags", [pytest.param((), id="buffered"), pytest.param(("-u",), id="unbuffered")])
@pytest.mark.parametrize("argument", ["kit.json", "--help"])
def test_a_full_disk_is_70_and_said_once(write, run, argument, flags):
    write("print('ready'); return 0")
    with open("/dev/full", "w") as full:
        done = run(argument, stdout=full, flags=flags)
    assert done.returncode == 70
    assert done.stderr.count("No space left on device") == 1


def test_the_same_bytes_in_every_locale(write, tmp_path):
    write("print('“8 × 8 in” \\ud800'); return 0")
    written = [
        subprocess.run(
            [sys.executable, "-c", DOOR, "kit.json"],
            cwd=tmp_path,
            env={"LC_ALL": locale, "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
            stdout=subprocess.PIPE,
            check=True,
        ).stdout
        for locale in ("C", "C.UTF-8", "en_US.ISO-8859-1")
    ]
    assert written == ["“8 × 8 in” \\ud800\n".encode()] * 3


def test_closed_streams_do_not_change_an_answer(write, tmp_path):
    write("print('ready'); return 2")
    done = subprocess.run(["sh", "-c", '"$@" >&- 2>&-', "sh", sys.executable, "-c", DOOR, "kit.json"], cwd=tmp_path)
    assert done.returncode == 2


def test_the_door_itself_needs_only_the_standard_library():
    """What the door imported would fail outside its own try, and slow every command."""
    code = f"import sys; sys.path.insert(0, {str(CHECKOUT)!r}); import config.door; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, encoding="utf-8", check=True).stdout
    ours = {"config", "config.door", "__main__"}
    strangers = {name for name in loaded.split() if name.partition(".")[0] not in sys.stdlib_module_names} - ours
    # Hooks that the virtual environment's packages start with every Python are not the door's doing.
    bare = subprocess.run(
        [sys.executable, "-c", "import sys; print(*sys.modules)"], capture_output=True, encoding="utf-8", check=True
    ).stdout
    assert strangers - set(bare.split()) == set()


@pytest.mark.parametrize(
    ("argv", "expected"),
    [
        (["manage.py"], False),
        (["manage.py", "migrate"], False),
        (["manage.py", "proof"], True),
        (["manage.py", "help", "proof"], False),
    ],
)
def test_commands_of_the_contract_are_told_from_djangos(argv, expected):
    assert door.is_contract_command(argv) is expected


def _manage(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, CHECKOUT / "manage.py", *arguments], capture_output=True, encoding="utf-8")


@pytest.mark.parametrize("command", sorted(door.COMMANDS))
def test_manage_lists_and_explains_each_command_of_the_contract(command):
    assert f"    {command}\n" in _manage("help").stdout
    explained = _manage("help", command)
    assert explained.returncode == 0
    assert explained.stdout.startswith(f"usage: manage.py {command} ")
    assert explained.stdout == _manage(command, "--help").stdout


@pytest.mark.parametrize("command", sorted(door.COMMANDS))
def test_a_command_of_the_contract_does_without_django(command):
    """A proof works without a database, and one that waited for Django to start would be slow."""
    code = (
        f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})\n"
        "from config import door\n"
        f"status = door.main(['manage.py', {command!r}, '--help'])\n"
        "sys.exit(status or 'django' in sys.modules)\n"
    )
    assert subprocess.run([sys.executable, "-c", code], stdout=subprocess.DEVNULL).returncode == 0


def test_usage_of_a_command_that_comes_past_manage_is_64_too():
    done = subprocess.run(
        [sys.executable, "-m", "django", "proof", "--settings", "config.settings"],
        cwd=CHECKOUT,
        env={"DJANGO_SETTINGS_MODULE": "config.settings"},
        capture_output=True,
    )
    assert done.returncode == 64
