"""JSON to the domain's nouns and back, one module for each thing that is said."""
