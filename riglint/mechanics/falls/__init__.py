"""What is caught: a person on a leash, a mass on a spring, a slack tie-back."""
