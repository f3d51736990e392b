"""What to order: lengths that serve, the fewest of them, what to have made, and what came."""
