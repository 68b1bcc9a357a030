"""What each library of a run is judged by, what that keeps from being judged, and which findings it knows already."""
