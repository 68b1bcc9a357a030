"""What each drawing shows: points in metres and kilonewtons, rows of the chain, strands of the haul."""
