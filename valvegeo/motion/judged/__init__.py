"""What numbers mean: geometry that cannot be, what to be wary of, and what would mend it."""
