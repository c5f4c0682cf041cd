"""The Pellworth drop-off loop: stated figures, and the surface that follows from them."""
