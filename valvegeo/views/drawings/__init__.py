"""Drawings: shapes, and Bokeh figures of results. They know neither builds nor widgets."""
