"""The functions of cells: written in Basic, since cells reach no other language, and answered in Python."""

from __future__ import annotations

from pathlib import Path

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

#: Cells look for functions in this library alone.
_LIBRARY, _MODULE = "Standard", "Loadworthy"


def add(context: Any) -> str:
    """Puts the functions among the user's macros, in place of those of before."""
    source = (Path(__file__).parent / "installed" / "Loadworthy.bas").read_text(encoding="utf-8")
    libraries = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.script.ApplicationScriptLibraryContainer", context
    )
    libraries.loadLibrary(_LIBRARY)
    library = libraries.getByName(_LIBRARY)
    if library.hasByName(_MODULE):
        library.replaceByName(_MODULE, source)
    else:
        library.insertByName(_MODULE, source)
    libraries.storeLibraries()
    return "the functions LOADWORTHY… are known to cells from now on"
