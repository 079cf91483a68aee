"""The register of decisions and observations, and the lists that are brought to it."""
