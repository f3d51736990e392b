"""What people look at: figures, sentences, tables, the report and the live panel. Figures know no widgets."""
