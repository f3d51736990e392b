"""Notebooks under test leave out the figures' JavaScript, as the saved ones do."""

import os

from valvegeo.views.live.notebook import LEAN_OUTPUT

os.environ[LEAN_OUTPUT] = "1"
