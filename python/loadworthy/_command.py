"""The command `loadworthy`, run in this process: the same one that the Rust crate installs."""

from __future__ import annotations

import sys

from loadworthy import _core

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence


def run(arguments: Sequence[str]) -> int:
    """Runs the command on these arguments, without its name, and gives its exit status.

    What it has to say goes to the output and the error stream of the process: 0 answered and fit, 1 the answer is no,
    2 cannot tell, 3 input that could not be read.
    """
    for stream in (sys.stdout, sys.stderr):
        # What Python has not written yet was said before; a program without a console has no streams.
        if stream is not None:
            stream.flush()
    return _core.command(["loadworthy", *arguments])


def main() -> None:
    """The entry point that the package installs."""
    import signal

    # While the command runs no Python code does, so that Ctrl-C must end the process by itself.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    sys.exit(run(sys.argv[1:]))
