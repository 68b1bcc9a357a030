"""The documents that people write: rig, spot, gear list and policy, and what must hold inside each."""
