"""From a narrated walk through an empty rental to a record that both sides can rely on."""

__version__ = "0.1.0"
