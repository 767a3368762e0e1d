"""The command that the package installs: one implementation, two doors."""

import subprocess
import sys
from pathlib import Path

import pytest
from conftest import EXAMPLES

COTTAGE = str(EXAMPLES / "cottage.toml")
SCRIPT = Path(sys.executable).with_name("loadworthy")

RUNS = [
    [],
    ["--help"],
    ["--version"],
    ["check", COTTAGE],
    ["check", COTTAGE, str(EXAMPLES / "cottage-failing.toml"), "--format", "json"],
    ["check", "no such file.toml"],
    ["plan", COTTAGE, "--hours", "8 h"],
    ["sequence", COTTAGE, "--format", "checklist"],
    ["calc", "ampacity", "--size", "8 AWG"],
    ["calc", "plug", "--plug", "5-15P", "--receptacle", "14-50R"],
    ["calc", "--help"],
    ["size", "cord", "--help"],
    ["table"],
    ["rules", "cord-ampacity"],
    ["fields"],
    ["dance"],
]


@pytest.mark.parametrize("words", RUNS, ids=lambda words: " ".join(words)[-40:] or "nothing")
@pytest.mark.parametrize("door", [[SCRIPT], [sys.executable, "-m", "loadworthy"]], ids=["script", "module"])
def test_the_installed_command_is_the_command(command, door, words):
    run = subprocess.run([*door, *words], capture_output=True, check=False)
    assert (run.returncode, run.stdout.decode(), run.stderr.decode()) == command(*words)


def test_questions_come_through_a_pipe(command):
    lines = b'{"question": "continuous-load", "continuous": "16 A", "non-continuous": "0 A"}\n'
    run = subprocess.run([SCRIPT, "calc", "--questions", "-"], input=lines, capture_output=True, check=False)
    assert (run.returncode, run.stdout.decode(), run.stderr.decode()) == command("calc", "--questions", "-", stdin=lines)


def test_a_reader_that_leaves_early_is_no_error():
    run = subprocess.run(f"'{SCRIPT}' fields | head -n 1", shell=True, capture_output=True, check=False)
    assert run.stdout.count(b"\n") == 1
    assert run.stderr == b""


def test_what_python_printed_before_comes_before(tmp_path):
    program = tmp_path / "program.py"
    program.write_text('print("first")\nfrom loadworthy._command import run\nprint("status", run(["--version"]))\n')
    run = subprocess.run([sys.executable, program], capture_output=True, text=True, check=True)
    first, version, status = run.stdout.splitlines()
    assert (first, status) == ("first", "status 0")
    assert version.startswith("loadworthy ")
