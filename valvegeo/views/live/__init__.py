"""What every live panel is made of: handles, messages, notebook set-up, formulas."""
