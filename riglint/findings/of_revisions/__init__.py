"""What can be told of the files of a git revision before they are taken out."""
