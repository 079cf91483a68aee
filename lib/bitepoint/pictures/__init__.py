"""Drawings and plots by key, each with its alt text: one function a picture."""

from bitepoint.pictures.registry import Drawing, Frame, Motion, Shape, Sound, draw, keys, motion, sound

__all__ = ["Drawing", "Frame", "Motion", "Shape", "Sound", "draw", "keys", "motion", "sound"]
