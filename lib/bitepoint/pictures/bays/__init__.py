"""Workshop bays to look round."""
