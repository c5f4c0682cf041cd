"""Widgets; imported by Desktop alone, never by algorithms."""
