"""Pure numpy and shapely: everything that is known without a host program."""
