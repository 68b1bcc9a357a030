"""Rules about where a part that weakens the line may sit."""
