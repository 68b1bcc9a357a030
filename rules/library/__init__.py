"""What only shows when the rigs of a library are laid side by side."""
