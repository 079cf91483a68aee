"""Road-test logs as plots."""
