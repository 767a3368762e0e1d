"""`python3 -m loadworthy.libreoffice`: puts the macros into the profile of LibreOffice."""

from __future__ import annotations

import argparse
import shutil
import sys
from pathlib import Path

import loadworthy

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence


def install(profile: Path) -> Path:
    """Copies the macros and the package to where the profile keeps macros; gives the file of the macros."""
    scripts = profile / "user" / "Scripts" / "python"
    package = scripts / "pythonpath" / "loadworthy"
    shutil.rmtree(package, ignore_errors=True)
    # LibreOffice puts this folder, beside the macros, on the path of their Python.
    shutil.copytree(Path(loadworthy.__file__).parent, package, ignore=shutil.ignore_patterns("__pycache__"))
    macros = scripts / "loadworthy_macros.py"
    shutil.copyfile(package / "libreoffice" / "installed" / macros.name, macros)
    return macros


def profile_of_this_user() -> Path:
    """Where LibreOffice keeps what is the user's."""
    places = {
        "win32": Path.home() / "AppData" / "Roaming" / "LibreOffice",
        "darwin": Path.home() / "Library" / "Application Support" / "LibreOffice",
    }
    return places.get(sys.platform, Path.home() / ".config" / "libreoffice") / "4"


def main(arguments: Sequence[str] | None = None) -> int:
    """Installs the macros and says where they are."""
    parser = argparse.ArgumentParser(prog="python3 -m loadworthy.libreoffice", description=install.__doc__)
    parser.add_argument(
        "--profile", type=Path, default=profile_of_this_user(), help="the profile; that of this user without it"
    )
    macros = install(parser.parse_args(arguments).profile)
    print(f"{macros}\nIn Calc, run the macro add_cell_functions of loadworthy_macros once.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
