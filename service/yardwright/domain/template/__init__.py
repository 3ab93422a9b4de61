"""Templates: a product design as data, read and checked, then resolved into a piece."""

from .model import Template
from .read import read_template
from .sizes import sizes

__all__ = ["Template", "read_template", "sizes"]
