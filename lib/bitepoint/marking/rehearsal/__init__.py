"""An invented class to practise marking on, with the truth to compare the marks with."""
