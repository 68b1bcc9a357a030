"""Around the line and its plan: wires, paths, aircraft, water, fall zone, people, weather, checks on site."""
