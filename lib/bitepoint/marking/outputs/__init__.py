"""The results folder: a set of files written aside with its manifest, then moved in as a whole."""
