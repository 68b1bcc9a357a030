"""What every command shares: options, names of files, outputs, exit status."""
