"""From judged changes, a unit file and tables of law and useful lives to a settlement. All of it is pure."""
