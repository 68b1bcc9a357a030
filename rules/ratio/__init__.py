"""Strength in place against static, peak and rated load."""
