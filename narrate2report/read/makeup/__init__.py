"""Statements of what a component is: material, type, number, colour, age."""
