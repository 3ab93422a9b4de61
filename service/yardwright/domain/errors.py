"""Errors: raised only where no quote can exist. (A *finding* is data, see finding.py.)

    Refused                 what was asked cannot be answered; carries one or more faults
    ├── BadLength           a text that is no length, or an ambiguous one (with the candidates)
    ├── BadFormula          a formula that cannot be read or evaluated
    ├── BadTemplate         a template that breaks the format
    ├── BadData             a file of the shop's or of ours that breaks its format
    ├── BadJob              a job that asks for something that does not exist or cannot be
    ├── NoStock             a part that no stock can give
    ├── TooMuch             more than one request may ask for
    └── BrokenSeal          a paper whose content is not what was sealed

Each class has a stable ``code``; the HTTP side maps codes to statuses in one table.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong: where (a JSON Pointer into what was sent, or file:line) and what would be right."""

    pointer: str
    detail: str


class Refused(Exception):
    """What was asked cannot be answered."""

    code = "refused"
    title = "This cannot be answered"

    def __init__(self, *faults: Fault) -> None:
        self.faults: tuple[Fault, ...] = faults
        super().__init__("; ".join(f"{f.pointer}: {f.detail}" if f.pointer else f.detail for f in faults))

    def under(self, prefix: str) -> Refused:
        """The same refusal, its pointers set below ``prefix`` (``/items/0`` + ``/dimensions/length``)."""
        return type(self)(*(Fault(prefix + f.pointer, f.detail) for f in self.faults))


class BadLength(Refused):
    code = "bad-length"
    title = "This is not a length"


class BadFormula(Refused):
    code = "bad-formula"
    title = "A formula cannot be read or worked out"


class BadTemplate(Refused):
    code = "bad-template"
    title = "The template breaks the format"


class BadData(Refused):
    code = "bad-data"
    title = "A data file breaks its format"


class BadJob(Refused):
    code = "bad-job"
    title = "The job asks for something that cannot be"


class NoStock(Refused):
    code = "no-stock"
    title = "No stock the shop can buy gives this part"


class TooMuch(Refused):
    code = "too-much"
    title = "More than one request may ask for"


class BrokenSeal(Refused):
    code = "broken-seal"
    title = "The quote is not as it was sealed"
