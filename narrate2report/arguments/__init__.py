"""What can be typed: one module for each group of commands, which imports a command only when it runs."""
