"""What the reports of an audit say, whatever their form."""
