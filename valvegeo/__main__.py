"""Run the commands: ``python -m valvegeo``."""

import gc
import sys

from valvegeo import streams


def _keep_what_is_loaded() -> None:
    """Take what has been loaded out of the collector's rounds: it lives as long as the process."""
    gc.freeze()
    gc.enable()


if __name__ == "__main__":
    streams.guard()  # before the commands are loaded, so that stopping them then is quiet too
    gc.disable()
    from valvegeo.cli import main

    sys.exit(main(when_loaded=_keep_what_is_loaded))
