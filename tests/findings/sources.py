"""The package's source outside the tables of words, as trees."""

from __future__ import annotations

import ast
from collections.abc import Iterator

from tests.modules import FILES, source


def parsed() -> Iterator[tuple[str, ast.Module]]:
    for module in sorted(FILES):
        if not module.startswith("findings/"):
            yield module, ast.parse(source(module))
