"""Hand-ins in: found, opened, read within limits, without running or unpacking anything."""
