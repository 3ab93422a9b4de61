"""The README's tour gives what the README says, command by command, over real HTTP."""

from __future__ import annotations

from tour import README, commands, outputs, told


def test_the_tour_gives_what_the_readme_says(server: str) -> None:
    text = README.read_text(encoding="utf-8")
    asked = commands(text)
    assert len(asked) > 6
    assert told(text, outputs(asked, server.removeprefix("http://"))) == text
