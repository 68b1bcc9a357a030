"""Values that the mechanics and the rules stand on, each once, with its source."""
