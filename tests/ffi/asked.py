"""Asks each question of asked.txt of the command and of the C interface: the same bytes, complaints and exit status.

    python3 asked.py path/to/loadworthy path/to/asked
"""

import pathlib
import re
import shlex
import subprocess
import sys

COMMAND, DOOR = sys.argv[1:]
LINES = (pathlib.Path(__file__).parent / "asked.txt").read_text(encoding="utf-8").splitlines()


def run(*words):
    done = subprocess.run(words, capture_output=True, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def questions(room):
    listed = run(COMMAND, room, "--help")[1].split("Commands:\n")[1].split("\n\n")[0]
    return {(room, name) for name in re.findall(r"^  ([a-z-]+) ", listed, flags=re.MULTILINE)} - {(room, "help")}


asked, ends = set(), set()
for line in LINES:
    if line.startswith("#"):
        continue
    room, name, *options = shlex.split(line)
    asked.add((room, name))
    question = name if room == "calc" else f"size-{name}"
    pairs = [word.removeprefix("--") for word in options]
    for form in ("text", "json"):
        expected = run(COMMAND, room, name, *options, "--edition", "nec-2023", "--format", form)
        found = run(DOOR, form, question, *pairs)
        if found != expected:
            sys.exit(f"{line}\nthe command: {expected}\nthe C interface: {found}")
        ends.add(expected[0])
if missing := (questions("calc") | questions("size")) - asked:
    sys.exit(f"not asked: {missing}")
if ends != {0, 1, 2, 3}:
    sys.exit(f"only these exit statuses were seen: {ends}")
