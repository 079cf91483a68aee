"""Own sheets: a vehicle's figures as a college entered them from its repair data, checked by a second person."""
