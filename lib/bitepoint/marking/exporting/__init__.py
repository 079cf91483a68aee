"""Results in forms that other systems read."""
