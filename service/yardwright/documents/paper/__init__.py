"""The customer's paper: a quote as it was answered, set on pages that can be signed."""
