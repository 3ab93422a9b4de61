"""What can be chosen of a template in one shop: its own choices, heavier sections, timbers and finishes."""

from __future__ import annotations

from ..errors import NoStock
from ..shop import Shop
from ..template.model import AS_USUAL, Choice, Role, Template
from .stock import pick_stock


def offered(template: Template, shop: Shop) -> tuple[Choice, ...]:
    """The template's choices, a heavier section for each role that lists some, ``timber`` and ``finish``.

    A timber is offered when the shop sells every role of the template in it; where the template's own default
    is not sold, the first that is becomes the default.
    """
    timbers = tuple((timber, shop.market.timbers[timber].name) for timber in _timbers(template, shop)
                    if _sold(template, timber, shop))
    known = ("none", *(finish for finish in shop.market.finishes if finish != "none"))
    finishes = tuple((finish, finish_name(finish, shop))
                     for finish in template.finishes or known if finish in known)
    woods = {timber for timber, _ in timbers}
    heavier = tuple(_heavier(role, woods, shop) for role in template.roles if role.heavier)
    return (*template.choices, *(choice for choice in heavier if choice),
            Choice("timber", "Timber", timbers, _default(template.default_timber, timbers)),
            Choice("finish", "Finish", finishes, _default(template.default_finish, finishes)))


def _heavier(role: Role, timbers: set[str], shop: Shop) -> Choice | None:
    """The choice among the heavier sections that the shop sells in a timber on offer; None where none is."""
    wood = {role.timber} if role.timber else timbers
    sold = {board.section.id for board in shop.market.boards if board.timber in wood}
    options = tuple((section, section.replace("x", " × ")) for section in role.heavier if section in sold)
    if not options:
        return None
    label = f"{role.label or role.name.replace('_', ' ').capitalize()}, section"
    return Choice(role.chosen_by, label, ((AS_USUAL, "As usual"), *options), AS_USUAL, about="make")


def finish_name(finish: str, shop: Shop) -> str:
    """A finish in words: "No finish", "Clear penetrating oil"."""
    known = shop.market.finishes.get(finish)
    return known.name if known else "No finish" if finish == "none" else finish


def _timbers(template: Template, shop: Shop) -> tuple[str, ...]:
    sold = {board.timber for board in shop.market.boards} & set(shop.market.timbers)
    return tuple(timber for timber in template.timbers or tuple(shop.market.timbers) if timber in sold)


def _sold(template: Template, timber: str, shop: Shop) -> bool:
    try:
        pick_stock(template, timber, shop.market)
    except NoStock:
        return False
    return True


def _default(wished: str, options: tuple[tuple[str, str], ...]) -> str:
    ids = [word for word, _ in options]
    return wished if wished in ids or not ids else ids[0]
