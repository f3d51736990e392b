"""What was measured and what goes out: files, units, places of faults. No geometry."""
