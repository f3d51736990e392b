"""Reading the mark: expected marks, the fit, what the readings tell and what to read next."""
