"""LibreOffice Calc: functions for cells, and a macro that checks the selected circuits.

`python3 -m loadworthy.libreoffice`, run with the Python that LibreOffice uses, puts the macros and a copy of this
package into the user's profile; LibreOffice is closed meanwhile. Then, in Calc, Tools > Macros > Run Macro >
loadworthy_macros > `add_cell_functions` once, and in cells::

    =LOADWORTHY_AMPACITY_A("8 AWG"; "copper"; "THHN"; "terminals"; "75 °C")
    =LOADWORTHY_CORD_A("SOOW"; "10 AWG"; 2)
    =LOADWORTHY_DROP_V("12 AWG"; "copper"; "50 ft"; "16 A"; "120 V"; "two-wire")
    =LOADWORTHY_BREAKER_A("45 A")
    =LOADWORTHY("plug_fit"; "plug"; "5-15P"; "receptacle"; "5-20R")
    =LOADWORTHY_WHY("ampacity"; "size"; A2; "material"; B2; "insulation"; C2)

What follows the first arguments are names of keywords and their values, as the functions of the package have them. A
function that ends in a unit gives a number in that unit; where it cannot, it gives a text that says why, so that no
calculation goes on with it. `check_circuits` judges the selected rows as `loadworthy.spreadsheet` does a workbook.
"""
