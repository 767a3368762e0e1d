"""Runs in the Python of LibreOffice: starts one of its own, does what it is asked, and says what came of it.

The input is a JSON list of steps, each a list of a word and its arguments; the output is a JSON list of their results.
A profile and a pipe of its own keep it apart from whatever else runs.
"""

import json
import os
import signal
import subprocess
import sys
import time
import uuid

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

PATIENCE = 120


def started(profile):
    pipe = f"loadworthy-{uuid.uuid4().hex}"
    command = [
        "soffice",
        f"-env:UserInstallation={uno.systemPathToFileUrl(profile)}",
        "--headless",
        "--norestore",
        "--nologo",
        "--nodefault",
        f"--accept=pipe,name={pipe};urp",
    ]
    # A group of its own, so that what it starts ends with it; no output, or whoever reads it waits for all of them.
    silent = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    process = subprocess.Popen(command, start_new_session=True, **silent)
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    for _ in range(PATIENCE * 5):
        try:
            return process, resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except NoConnectException:
            time.sleep(0.2)
    os.killpg(process.pid, signal.SIGKILL)
    sys.exit("LibreOffice did not answer")


class Session:
    def __init__(self, context):
        self.context = context
        self.desktop = self.service("com.sun.star.frame.Desktop")
        factory = self.service("com.sun.star.script.provider.MasterScriptProviderFactory")
        self.provider = factory.createScriptProvider("")
        self.document = None

    def service(self, name):
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    def open(self, path=None):
        hidden = PropertyValue()
        hidden.Name, hidden.Value = "Hidden", True
        url = uno.systemPathToFileUrl(path) if path else "private:factory/scalc"
        self.document = self.desktop.loadComponentFromURL(url, "_blank", 0, (hidden,))
        return [sheet.Name for sheet in self.document.Sheets]

    def show(self):
        """A document with a window, as its user has it, who selects cells and runs macros; nobody sees it here."""
        self.document = self.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, ())

    def select(self, name):
        self.document.CurrentController.select(self.cell(name))

    def add_functions(self):
        # The macro shows a message; its inner half is called.
        sys.path.insert(0, self.pythonpath)
        from loadworthy.libreoffice import _functions

        return _functions.add(self.context)

    def cell(self, name):
        return self.document.Sheets.getByIndex(0).getCellRangeByName(name)

    def put(self, name, value):
        cell = self.cell(name)
        if isinstance(value, str) and value.startswith("="):
            cell.Formula = value
        elif isinstance(value, str):
            cell.String = value
        else:
            cell.Value = value

    def rows(self, first, rows):
        for down, row in enumerate(rows):
            for across, value in enumerate(row):
                if value is not None:
                    column, line = first
                    name = f"{chr(ord('A') + column + across)}{line + down + 1}"
                    self.put(name, value)

    def get(self, name):
        cell = self.cell(name)
        return cell.Value if cell.FormulaResultType2 == 1 and cell.getError() == 0 else cell.String

    def merge(self, name):
        self.cell(name).merge(True)

    def format(self, name, code):
        formats, locale = self.document.NumberFormats, uno.createUnoStruct("com.sun.star.lang.Locale")
        key = formats.queryKey(code, locale, False)
        self.cell(name).NumberFormat = key if key >= 0 else formats.addNew(code, locale)

    def note(self, name, text):
        self.document.Sheets.getByIndex(0).Annotations.insertNew(self.cell(name).CellAddress, text)

    def macro(self, name, *arguments):
        script = self.provider.getScript(
            f"vnd.sun.star.script:loadworthy_macros.py${name}?language=Python&location=user"
        )
        given = tuple(self.document if argument == "document" else argument for argument in arguments)
        try:
            return script.invoke(given, (), ())[0]
        except Exception as error:
            return f"refused: {error}"

    def area(self, name):
        return [list(row) for row in self.cell(name).DataArray]

    def notes(self):
        listed = self.document.Sheets.getByIndex(0).Annotations
        return {f"{note.Position.Column},{note.Position.Row}": note.String for note in listed}

    def colour(self, name):
        return self.cell(name).CellBackColor

    def wrap(self, name):
        self.cell(name).IsTextWrapped = True

    def height(self, name):
        return self.cell(name).Rows.getByIndex(0).Height

    def save(self, path):
        kind = PropertyValue()
        kind.Name, kind.Value = "FilterName", "Calc MS Excel 2007 XML"
        self.document.storeToURL(uno.systemPathToFileUrl(path), (kind,))

    def close(self):
        self.document.close(True)


def main():
    profile = sys.argv[1]
    steps = json.load(sys.stdin)
    process, context = started(profile)
    try:
        session = Session(context)
        session.pythonpath = os.path.join(profile, "user", "Scripts", "python", "pythonpath")
        print(json.dumps([getattr(session, word)(*arguments) for word, *arguments in steps]))
        session.desktop.terminate()
        process.wait(PATIENCE)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)


if __name__ == "__main__":
    main()
