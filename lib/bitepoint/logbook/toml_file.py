"""The TOML files of a workbook and a class, read within limits: see `workshop/small_toml.py`."""

from bitepoint.workshop.small_toml import MAX_TOML, decode_toml, read_toml_file

__all__ = ["MAX_TOML", "decode_toml", "read_toml_file"]
