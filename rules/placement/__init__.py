"""Where a part that weakens the line may sit."""
