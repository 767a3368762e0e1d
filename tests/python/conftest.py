"""Asks the command many questions in one run."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(Path(__file__).parent), str(ROOT / "tests" / "published")]


def binary():
    if "LOADWORTHY" in os.environ:
        return Path(os.environ["LOADWORTHY"])
    target = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    built = [path for profile in ("release", "debug") if (path := target / profile / "loadworthy").is_file()]
    if not built:
        pytest.exit("the command is not built; run `cargo build --release` or set LOADWORTHY", returncode=2)
    return max(built, key=lambda path: path.stat().st_mtime)


@pytest.fixture(scope="session")
def ask():
    """Questions in, answers out, in order."""

    def asking(questions):
        lines = "".join(json.dumps(question) + "\n" for question in questions)
        command = [binary(), "calc", "--questions", "-"]
        run = subprocess.run(command, input=lines, capture_output=True, text=True, encoding="utf-8", check=False)
        assert run.stderr == ""
        answers = [json.loads(line) for line in run.stdout.splitlines()]
        assert len(answers) == len(questions)
        return answers

    return asking


@pytest.fixture(scope="session")
def built():
    """The command that was built."""
    return binary()
