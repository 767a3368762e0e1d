"""`python -m loadworthy`: the command."""

from loadworthy._command import main

main()
