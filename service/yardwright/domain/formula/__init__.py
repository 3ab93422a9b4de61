"""Formulas in templates: arithmetic on declared names and a short list of trade functions, nothing else.

``read`` checks text against the declared names' kinds and gives a tree of plain lists (it travels as
JSON to the phone); ``evaluate`` works a tree out. Lengths are floats in mm, areas mm2, angles degrees.
"""
