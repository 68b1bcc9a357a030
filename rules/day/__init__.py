"""What only shows when several lines stand at one spot on one day."""
