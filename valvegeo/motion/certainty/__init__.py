"""How sure: derivatives of the answers, and uncertainty carried to them."""
