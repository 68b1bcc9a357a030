"""Several lines at one spot: when they stand, what they share, and where they meet."""
