"""The geometry itself, as sympy expressions: points in one frame, the loop they close, what is derived from there."""
