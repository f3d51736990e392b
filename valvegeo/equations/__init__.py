"""Symbolic layer: all geometry, derived in sympy from one frame."""
