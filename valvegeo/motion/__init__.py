"""Numeric library: where the parts stand, how they move, the band they sweep and the length that makes it narrowest.

Batch shapes broadcast: candidates first, valves last, lift as a trailing axis. Geometry that cannot be assembled is
NaN.
"""
