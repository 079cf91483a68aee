"""What a supervised job is done with: cards made from the vehicle's sheet and the tools at hand."""
