"""What is questioned in a college's own sheet, and the second person's check."""
