"""Bolts, joints, rings of bolts and the torque wrench."""
