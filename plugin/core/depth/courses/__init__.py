"""Courses: the layers of a section from the top down, and the surfaces between them."""
