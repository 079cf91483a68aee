"""The course for a room without a network: one folder with every part, made on a computer like those of the room."""
