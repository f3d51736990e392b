"""What stands in one cell: a unit, a name, a length typed as turns; and which word was meant by a wrong one."""
