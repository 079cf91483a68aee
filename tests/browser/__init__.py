"""Tests in the real JupyterLab. A package, so that its browser is closed before the next folder's tests begin."""
