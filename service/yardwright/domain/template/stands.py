"""What holds a piece up: the ground under its feet, a wall at its back, or holes that its posts stand in."""

from __future__ import annotations

ON_GROUND, ON_WALL, IN_GROUND = STANDS = ("on the ground", "hung on a wall", "posts in the ground")
