"""One module a command: it calls the stages in order and leaves the work to them."""
