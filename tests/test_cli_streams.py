"""What scripts rely on: standard streams that are closed, full or redirected, signals, and names in any bytes."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from valvegeo.cli import main

pytestmark = pytest.mark.skipif(os.name != "posix", reason="shell redirection and signals as POSIX has them")

DATA = Path(__file__).parents[1] / "data"
PAIR = str(DATA / "larkspur_pair.csv")
COMMAND = (sys.executable, "-m", "valvegeo")
SIGNALS = [signal.SIGINT, signal.SIGTERM, signal.SIGHUP]
NONE_WRITTEN, ALL_WRITTEN = "no file was written", "the files asked for were all written"


def run(
    redirection: str, *arguments: str | bytes, command: tuple[str, ...] = COMMAND, unbuffered: str = ""
) -> tuple[int, str, str]:
    """Run a command under a shell's redirection; its status, standard output and standard error."""
    ran = subprocess.run(
        ["sh", "-c", f'exec "$@" {redirection}', "sh", *command, *arguments],
        capture_output=True,
        env={**os.environ, "PYTHONUNBUFFERED": unbuffered},
    )
    said = ran.stderr.decode()
    assert "Traceback" not in said
    assert "Exception ignored" not in said
    return ran.returncode, ran.stdout.decode(), said


def patched(patch: str) -> tuple[str, ...]:
    """A command that is the real one but for a few lines before it."""
    return (sys.executable, "-c", f"{patch}\nimport runpy\nrunpy.run_module('valvegeo', run_name='__main__')")


def delivering(folder: Path, patch: str = "") -> tuple[str, ...]:
    """A command that writes two files as every command does, without the seconds of computing before."""
    return patched(f"""
import os, signal
from pathlib import Path
from valvegeo.commands import template
from valvegeo.commands.run import Run
texts = [(Path({str(folder)!r}, name), lambda: "new") for name in ("t.csv", "r.csv")]
template.run = lambda arguments: Run([], []).deliver(texts, "printed")
{patch}
""")


def contents(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text() for path in folder.iterdir()}


BOTH_NEW = {"t.csv": "new", "r.csv": "new"}


def test_closed_output_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    status, _, said = run(">&-", "template", "I1", command=delivering(tmp_path))
    assert status == 74
    assert said.startswith('standard output: got "closed"; allowed: a place that takes all that is printed; ')
    assert NONE_WRITTEN in said
    assert said.count("\n") == 1
    assert contents(tmp_path) == {}
    for arguments in [("template", "I1"), ("--help",), ("size", "--help")]:
        assert run(">&-", *arguments) == (status, "", said)


@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize("arguments", [("template", "I1"), ("--help",), ("size", "--help")])
def test_full_output_is_a_line_and_a_status(arguments: tuple[str, ...], unbuffered: str) -> None:
    status, _, said = run(">/dev/full", *arguments, unbuffered=unbuffered)
    assert status == 74
    assert said.startswith('standard output: got "No space left on device"; allowed: ')
    assert NONE_WRITTEN in said
    assert said.count("\n") == 1


def test_full_output_after_the_files_says_that_they_are_written(tmp_path: Path) -> None:
    status, _, said = run(">/dev/full", "template", "I1", command=delivering(tmp_path))
    assert status == 74
    assert ALL_WRITTEN in said
    assert contents(tmp_path) == BOTH_NEW


def test_reader_that_leaves_costs_no_file(tmp_path: Path) -> None:
    status, _, said = run("| exit 5", "template", "I1", command=delivering(tmp_path))
    assert (status, said) == (5, "")
    assert contents(tmp_path) == BOTH_NEW


@pytest.mark.parametrize("redirection", ["2>&-", "2>/dev/full", "<&- 2>&-", "<&- >&- 2>&-", ">/dev/full 2>/dev/full"])
@pytest.mark.parametrize("arguments", [("template", "I1", "I1"), ("nonsense",)])
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_faults_go_nowhere_but_to_standard_error(redirection: str, arguments: tuple[str, ...], unbuffered: str) -> None:
    assert run(redirection, *arguments, unbuffered=unbuffered) == (2, "", "")


@pytest.mark.parametrize("redirection", ["<&- 2>&-", "2>&-", "<&-"])
def test_no_file_takes_the_number_of_a_closed_stream(redirection: str, tmp_path: Path) -> None:
    written = tmp_path / "written"
    written.mkdir()
    patch = f"""
sync = os.fsync
def note(descriptor):
    with open({str(tmp_path / "numbers")!r}, "a") as file:
        print(descriptor, file=file)
    sync(descriptor)
os.fsync = note
"""
    assert run(redirection, "template", "I1", command=delivering(written, patch)) == (0, "printed", "")
    taken = [int(line) for line in (tmp_path / "numbers").read_text().split()]
    assert len(taken) == 3  # two files and their folder
    assert min(taken) > 2
    assert contents(written) == BOTH_NEW


def test_each_run_tells_of_its_own_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["size", PAIR, "--tuned", str(tmp_path / "t.csv")]) == 0
    monkeypatch.setattr(sys, "stdout", None)
    assert main(["template", "I1"]) == 74
    assert NONE_WRITTEN in capsys.readouterr().err


STREAM_NAMES = {
    "/dev/stdout": "standard output",
    "/dev/fd/1": "standard output",
    "/dev/stderr": "standard error",
}


def test_outputs_that_are_streams_are_refused(tmp_path: Path) -> None:
    names = list(STREAM_NAMES)
    if not all(Path(name).parent.exists() for name in names):
        pytest.skip(f"the system has not all of {names}")
    options = [word for pair in zip(("--tuned", "--results", "--page"), names, strict=True) for word in pair]
    arguments = ("size", str(tmp_path / "absent.csv"), *options)
    printed, said = tmp_path / "printed", tmp_path / "said"
    status, _, _ = run(f">{printed} 2>{said}", *arguments)
    assert (status, printed.read_text()) == (2, "")
    assert said.read_text().splitlines()[1:] == [
        f'{name}: got "{name}"; allowed: a file that nothing is printed into; {STREAM_NAMES[name]} runs into it: give '
        "the output another name"
        for name in names
    ]
    assert {path.name for path in tmp_path.iterdir()} == {"printed", "said"}
    assert run("| cat", *arguments)[2].count("that is a device or pipe: name a file") == len(names)


def test_output_that_the_shell_prints_into_is_refused_and_left(tmp_path: Path) -> None:
    tuned = tmp_path / "t.csv"
    status, _, said = run(f">{tuned}", "size", PAIR, "--tuned", str(tuned))
    assert status == 2
    assert said.startswith(f"{tuned}: got ")
    assert "standard output runs into it" in said
    assert tuned.read_text() == ""


def test_measurements_are_not_printed_into(tmp_path: Path) -> None:
    build = tmp_path / "build.csv"
    measured = Path(PAIR).read_text(encoding="utf-8")
    build.write_text(measured, encoding="utf-8")
    status, _, said = run(f">>{build}", "size", str(build))
    assert status == 2
    assert said.startswith(f"{build}: got ")
    assert "(the shell's > or >>): send that to another file" in said
    assert build.read_text(encoding="utf-8") == measured


def stopped_by(signals: list[int], command: list[str], path: Path, shell: str = 'exec "$@"') -> tuple[int, str, str]:
    """Run a command with a folder of stand-in modules, send signals when one of them says so."""
    ran = subprocess.Popen(
        ["sh", "-c", shell, "sh", *command],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(path), os.environ.get("PYTHONPATH", "")])},
        text=True,
    )
    assert ran.stderr is not None
    assert ran.stderr.readline() == "loading\n"
    for number in signals:
        ran.send_signal(number)
    out, err = ran.communicate(timeout=60)
    return ran.returncode, out, err


SLOW_TO_LOAD = "import sys, time\nprint('loading', file=sys.stderr, flush=True)\ntime.sleep(50)\n"


@pytest.mark.parametrize(
    ("number", "module", "arguments"),
    [*((number, "argparse", ["template", "I1"]) for number in SIGNALS), (signal.SIGINT, "scipy", ["size", PAIR])],
)
def test_stopping_while_modules_load_is_quiet(number: int, module: str, arguments: list[str], tmp_path: Path) -> None:
    (tmp_path / f"{module}.py").write_text(SLOW_TO_LOAD)
    assert stopped_by([number], [*COMMAND, *arguments], tmp_path) == (128 + number, "", f"stopped: {NONE_WRITTEN}\n")


def test_signal_that_the_caller_ignores_stays_ignored(tmp_path: Path) -> None:
    (tmp_path / "argparse.py").write_text(SLOW_TO_LOAD)
    ignoring = "trap '' HUP; exec \"$@\""
    status, *_ = stopped_by([signal.SIGHUP, signal.SIGTERM], [*COMMAND, "template", "I1"], tmp_path, ignoring)
    assert status == 143


@pytest.mark.parametrize("number", SIGNALS)
@pytest.mark.parametrize(
    ("step", "written"), [("fsync", False), ("link", False), ("replace", True)], ids=["writing", "keeping", "renaming"]
)
def test_stopping_amid_the_files_leaves_all_or_none(step: str, written: bool, number: int, tmp_path: Path) -> None:
    for name in BOTH_NEW:
        (tmp_path / name).write_text("old")
    patch = f"""
step = os.{step}
def stop_first(*arguments):
    signal.raise_signal({int(number)})
    return step(*arguments)
os.{step} = stop_first
"""
    status, printed, said = run("", "template", "I1", command=delivering(tmp_path, patch))
    assert (status, printed) == (128 + number, "")
    assert said == f"stopped: {ALL_WRITTEN if written else NONE_WRITTEN}\n"
    assert contents(tmp_path) == (BOTH_NEW if written else dict.fromkeys(BOTH_NEW, "old"))


def test_runs_where_the_system_has_no_hangup() -> None:
    status, printed, said = run("", "template", "I1", command=patched("import signal\ndel signal.SIGHUP"))
    assert (status, said) == (0, "")
    assert "quantity,unit,I1" in printed


@pytest.fixture
def odd(tmp_path: Path) -> Path:
    """A build file with a name that is no UTF-8."""
    build = tmp_path / os.fsdecode(b"b\xff.csv")
    try:
        build.write_bytes(Path(PAIR).read_bytes())
    except OSError:
        pytest.skip("the file system takes names in UTF-8 only")
    return build


def test_name_that_is_no_utf8_is_shown_with_escapes(odd: Path) -> None:
    tuned, page = odd.with_name(os.fsdecode(b"t\xfe.csv")), odd.with_name(os.fsdecode(b"p\xfe.html"))
    status, _, said = run("", "size", os.fsencode(odd), "--tuned", os.fsencode(tuned), "--page", os.fsencode(page))
    assert (status, said) == (0, "")
    assert main(["size", str(tuned)]) == 0
    assert r"From b\udcff.csv." in page.read_text(encoding="utf-8")


def test_name_that_is_no_utf8_on_the_page_of_an_order(odd: Path, tmp_path: Path) -> None:
    page = tmp_path / "p.html"
    assert main(["order", str(odd), str(DATA / "larkspur_stock.csv"), "--page", str(page)]) == 0
    assert re.search(r"From b\\udcff\.csv and larkspur_stock\.csv\.", page.read_text(encoding="utf-8"))


@pytest.mark.parametrize("arguments", [("size", b"\xff.csv"), ("size", PAIR.encode(), b"--\xff")])
def test_name_that_is_no_utf8_in_a_fault(arguments: tuple[str | bytes, ...]) -> None:
    status, printed, said = run("", *arguments)
    assert (status, printed) == (2, "")
    assert r"\udcff" in said
