"""Drawings and plots by key, each with its alt text: one function a picture."""

from bitepoint.pictures.registry import Drawing, Shape, draw, keys

__all__ = ["Drawing", "Shape", "draw", "keys"]
