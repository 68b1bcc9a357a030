"""What holds when the main line goes: whether it is there, apart, strong, and of the right length."""
