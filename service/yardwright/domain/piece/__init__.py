"""A piece: an item resolved into placed solid members, and what follows from their geometry."""
