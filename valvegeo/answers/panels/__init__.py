"""The frozen values that panels hold: parts and lengths as they are tried, marks as they are read."""
