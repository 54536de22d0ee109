"""Work in two processes: what comes back, what goes wrong in the copy, and that a proof is the same either way."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from publisher.parting import WHOLE

ROOT = Path(__file__).parent.parent
PARTED = {name: value for name, value in os.environ.items() if name != WHOLE} | {"PYTHONPATH": str(ROOT)}

needs_two = pytest.mark.skipif(
    sys.platform != "linux" or (os.cpu_count() or 1) < 2, reason="a process parts on Linux, with two cores"
)


def _run(program: str) -> subprocess.CompletedProcess[str]:
    """A program in a process of its own: here a test may run beside threads, and then nothing parts."""
    lines = "import os, signal, sys\nfrom publisher.parting import both, may_part\nassert may_part()\n" + program
    return subprocess.run([sys.executable, "-c", lines], capture_output=True, text=True, env=PARTED, timeout=60)


@needs_two
def test_the_second_is_worked_out_by_another_process() -> None:
    ran = _run("here, there = both(os.getpid, os.getpid)\nprint(here == os.getpid(), there == here)")
    assert ran.stdout == "True False\n", ran.stderr


@needs_two
def test_more_than_a_pipe_holds_comes_back_whole() -> None:
    ran = _run("print(both(lambda: 1, lambda: list(range(500_000))) == (1, list(range(500_000))))")
    assert ran.stdout == "True\n", ran.stderr


@needs_two
def test_what_the_copy_raises_is_raised_here() -> None:
    ran = _run("both(lambda: 1, lambda: 1 / 0)")
    assert ran.returncode == 1
    assert ran.stderr.count("ZeroDivisionError") == 1


@needs_two
def test_a_copy_that_is_ended_from_outside_is_done_once_more_here() -> None:
    ran = _run("own = os.getpid()\nprint(both(lambda: 1, lambda: os.getpid() == own or os.kill(os.getpid(), 9)))")
    assert ran.stdout == "(1, True)\n", ran.stderr


@needs_two
def test_what_goes_wrong_here_ends_the_copy() -> None:
    ran = _run(
        "import time\n"
        "try:\n    both(lambda: 1 / 0, lambda: time.sleep(50))\n"
        "except ZeroDivisionError:\n    pass\n"
        "try:\n    os.waitpid(-1, 0)\n"
        "except ChildProcessError:\n    print('none left')\n"
    )
    assert ran.stdout == "none left\n", ran.stderr


@needs_two
def test_the_copy_prints_nothing_of_what_waits_to_be_printed() -> None:
    ran = _run("print('once', end='')\nboth(lambda: 1, lambda: 2)")
    assert ran.stdout == "once"


def test_one_process_is_kept_whole_where_it_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    from publisher.parting import both

    monkeypatch.setenv(WHOLE, "1")
    assert both(os.getpid, os.getpid) == (os.getpid(), os.getpid())


@needs_two
@pytest.mark.parametrize("broken", [False, True])
def test_a_proof_is_the_same_in_one_process_and_in_two(broken: bool, tmp_path: Path) -> None:
    """Of a pattern in four sizes."""
    folder = tmp_path / "avocet-sun-hat"
    folder.mkdir()
    for file in (ROOT / "content" / "avocet-sun-hat").iterdir():
        if file.is_file():
            text = file.read_bytes()
            (folder / file.name).write_bytes(text.replace(b"Does: sew ", b"Does: cut ") if broken else text)
    program = [sys.executable, "-m", "publisher", "proof", "--json", str(folder)]
    told = [
        subprocess.run(program, capture_output=True, text=True, env=environment, cwd=tmp_path, timeout=120)
        for environment in (PARTED, PARTED | {WHOLE: "1"})
    ]
    assert told[0].stdout == told[1].stdout
    assert (told[0].stdout.count('"error"') > 5) is broken
    assert told[0].returncode == told[1].returncode == (1 if broken else 0), told[0].stderr
