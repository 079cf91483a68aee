"""Posters and cards to hang up or to cut out: one page a file, nothing on them that their own source does not say."""
