"""What pulls: the pulley system strand by strand, its rope, and pullers."""
