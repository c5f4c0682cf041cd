"""What lies between surfaces: volumes, and where a difference keeps within limits."""
