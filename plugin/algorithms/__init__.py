"""Processing algorithms: each reads layers, makes one call into core, writes the results."""
