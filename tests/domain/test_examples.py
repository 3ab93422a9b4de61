"""The examples in docstrings hold."""

import doctest
import importlib
from pathlib import Path

import pytest

import yardwright

SOURCE = Path(yardwright.__file__).parent
WITH_EXAMPLES = sorted(path.relative_to(SOURCE.parent) for path in SOURCE.rglob("*.py")
                       if ">>>" in path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=str)
def test_examples_in_the_docstrings_of(path):
    name = ".".join(path.with_suffix("").parts).removesuffix(".__init__")
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted > 0
    assert found.failed == 0
