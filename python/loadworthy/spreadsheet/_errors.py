"""What can be wrong with a workbook as a whole; what is wrong with one cell is said in its row."""

from loadworthy._errors import Error


class SheetError(Error, ValueError):
    """A workbook or a sheet that cannot be checked; `place` names the file, the sheet or the cell."""

    def __init__(self, message: str, place: str | None = None) -> None:
        super().__init__(message, place)
        self.message = message
        self.place = place

    def __str__(self) -> str:
        return f"{self.place}: {self.message}" if self.place else self.message
