"""Instruments, their scales, and how they are set up."""
