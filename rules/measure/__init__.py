"""Rules that hold readings taken on site against the plan."""
