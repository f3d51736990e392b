"""Symbolic layer: all geometry, derived in sympy from one frame; printed as plain NumPy, and the one door to that."""
