"""Templates: a product design as data, read and checked, then resolved into a piece."""
