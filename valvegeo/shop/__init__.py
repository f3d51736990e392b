"""What the shop needs around the geometry: lengths and stock, the checking pushrod, fit-up, loads and cautions."""
