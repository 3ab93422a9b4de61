"""Checks: one rule a file; each gives findings with measured, limit, source and what would mend it."""
