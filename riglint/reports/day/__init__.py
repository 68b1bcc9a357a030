"""The page of a day at the spot: its plan to scale and what it holds."""
