"""What an instructor needs round the lessons: the class itself and bench sheets to print."""
