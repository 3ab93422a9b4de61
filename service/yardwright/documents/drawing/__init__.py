"""Drawings: one model in mm, drawn to SVG and to PDF from the same shapes."""
