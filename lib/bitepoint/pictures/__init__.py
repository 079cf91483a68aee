"""Drawings and plots by key, each with its alt text: one function a picture."""

from bitepoint.pictures.registry import Drawing, Frame, Motion, Shape, draw, keys, motion

__all__ = ["Drawing", "Frame", "Motion", "Shape", "draw", "keys", "motion"]
