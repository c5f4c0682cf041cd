"""What a reviewer measures: grades, volumes, where a difference keeps within limits, faults, ponds."""
