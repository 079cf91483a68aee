"""A road-test log of one's own: any table of figures, and the map that says which column is what."""
