"""Draw the app's icons: a bench whose seat is a rule. Run by hand: python tests/pwa/make_icons.py."""

from __future__ import annotations

from pathlib import Path

from PIL import Image, ImageDraw

GREEN, PAPER, OCHRE = "#134b33", "#fbfaf5", "#f0b93a"
BOARDS = [(8, 28, 56, 37, PAPER), (12, 37, 18, 52, PAPER), (46, 37, 52, 52, PAPER), (8, 18, 56, 23, OCHRE)]
TICKS = [(14, 4), (20, 3), (26, 4), (32, 6), (38, 4), (44, 3), (50, 4)]


def draw(size_px: int, shrink: float, corner: float) -> Image.Image:
    """The 64-unit drawing at ``size_px``; ``shrink`` keeps a maskable icon inside its safe zone."""
    side = size_px * 4
    image = Image.new("RGBA", (side, side), (0, 0, 0, 0))
    pen = ImageDraw.Draw(image)
    pen.rounded_rectangle((0, 0, side - 1, side - 1), radius=corner * side, fill=GREEN)

    def place(value: float) -> float:
        return (32 + (value - 32) * shrink) * side / 64

    for left, top, right, bottom, colour in BOARDS:
        pen.rectangle((place(left), place(top), place(right), place(bottom)), fill=colour)
    for along, length in TICKS:
        pen.rectangle((place(along - 0.8), place(28), place(along + 0.8), place(28 + length)), fill=GREEN)
    return image.resize((size_px, size_px), Image.Resampling.LANCZOS)


def main() -> None:
    here = Path(__file__).parents[2] / "pwa" / "icons"
    draw(192, 1.0, 12 / 64).save(here / "icon-192.png", optimize=True)
    draw(512, 1.0, 12 / 64).save(here / "icon-512.png", optimize=True)
    draw(512, 0.78, 0.0).save(here / "icon-maskable-512.png", optimize=True)


if __name__ == "__main__":
    main()
