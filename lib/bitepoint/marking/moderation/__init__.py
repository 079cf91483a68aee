"""Second marking by list: whom and what a second person marks, the blind sheet, their marks, how far two agree."""
