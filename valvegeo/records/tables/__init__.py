"""Tables, from CSV files and workbooks: every cell keeps its place, and what is wrong is named at it."""
