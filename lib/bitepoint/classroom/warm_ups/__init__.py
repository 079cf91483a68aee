"""Tomorrow's first ten minutes: five questions made from what a class has forgotten most, for the wall and on paper."""
