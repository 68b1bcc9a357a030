"""Rules about strength in place against peak, static and rated load."""
