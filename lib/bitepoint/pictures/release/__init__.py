"""The release system: its parts, its travel, bleeding."""
