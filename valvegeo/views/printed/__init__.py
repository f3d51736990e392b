"""What the commands print and write: reports, sheets and pages."""
