"""`python -m warmside`."""

from warmside.cli.entry import main

if __name__ == "__main__":
    raise SystemExit(main())
