"""Run the commands: ``python -m valvegeo``."""

import sys

from valvegeo import streams

if __name__ == "__main__":
    streams.guard()  # before the commands are loaded, so that stopping them then is quiet too
    from valvegeo.cli import main

    sys.exit(main())
