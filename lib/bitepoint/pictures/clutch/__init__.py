"""The clutch in section, its parts, its motion, its graphs."""
