"""What is found wrong or worth heeding: codes and numbers, and each code's words once."""
