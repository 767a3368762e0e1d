"""`python -m loadworthy`: the command."""

from loadworthy._command import main

if __name__ == "__main__":
    main()
