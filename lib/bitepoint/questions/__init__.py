"""Kinds of question, how each reads an answer and how each is marked."""
