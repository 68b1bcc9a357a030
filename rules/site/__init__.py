"""Around the line and its plan: wires, paths, aircraft, water, the fall zone, people, weather, checks on site."""
