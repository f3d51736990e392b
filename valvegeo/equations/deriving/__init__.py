"""From expressions to source: the list of compiled sets, and the printer that the run-time module comes from."""
