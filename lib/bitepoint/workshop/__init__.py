"""Trade knowledge over data files: the training vehicles, the workshop and its tools."""
