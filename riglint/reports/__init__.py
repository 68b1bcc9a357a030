"""Results in, characters out: one module for each form of report. Nothing here computes or judges."""
