"""What is believed of a build once its marks are read: all builds that explain them, weighed."""
