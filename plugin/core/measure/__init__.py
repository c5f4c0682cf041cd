"""What a reviewer measures: grades, volumes, where a difference keeps in limits, faults, ponds."""
