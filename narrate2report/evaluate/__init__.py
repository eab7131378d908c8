"""How well walks are read, by what people marked or decided: what was found, missed and not there."""
