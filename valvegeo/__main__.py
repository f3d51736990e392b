"""Run the commands: ``python -m valvegeo``."""

import sys

from valvegeo.cli import main

if __name__ == "__main__":
    sys.exit(main())
