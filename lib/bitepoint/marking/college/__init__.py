"""A folder of classes marked in one run: each class gets its own results, a college page stands above them."""
