"""The words known: one vocabulary from its layers, and every form of its words ready to be found."""
