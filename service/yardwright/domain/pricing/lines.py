"""From cost to the lines the customer reads: items, extras, delivery, discount, rounding."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal, InvalidOperation

from ..errors import BadJob, Fault
from ..job import Discount, Job
from ..measure import Writer, from_mm
from ..money import Money, split, total, up_to_multiple
from ..piece.fixed import is_fixed
from ..piece.model import Piece
from ..shop import PriceRules, Shop
from .model import PriceLine

KM_A_MILE = 1.609344


def sold_for(cost: Money, rules: PriceRules) -> Money:
    """The net price of a cost. Margin is a share of the price, markup a share of the cost; rounded up.

    1000 at margin 25 % is 1333.34, at markup 25 % it is 1250.00; 30 % markup is not 30 % margin.
    """
    rate = Decimal(rules.uplift_rate)
    if rules.uplift == "margin":
        return cost.over(1 - rate, "up")
    return cost.scaled(1 + rate, "up")


def included_rate(rules: PriceRules) -> Decimal:
    """The tax inside shown prices, 0 where tax is added at the end."""
    return sum((Decimal(tax.rate) for tax in rules.tax if tax.included), Decimal(0))


def shown(net: Money, rules: PriceRules) -> Money:
    """A net amount as a line shows it: with the tax inside where the shop shows it so."""
    return net.scaled(1 + included_rate(rules), "up")


def item_line(piece: Piece, quantity: int, net: Money, job: Job, shop: Shop) -> PriceLine:
    """One item: the price of one piece, rounded up to the minor unit, times the quantity."""
    unit = shown(net, shop.prices).over(quantity, "up")
    write = Writer(job.units)
    size = " x ".join(write.length(from_mm(mm)) for mm in piece.standing_mm)
    timber = shop.market.timbers.get(piece.choices.get("timber", ""))
    text = f"{piece.template.name}, {size}{', ' + timber.name if timber else ''}"
    return PriceLine("item", text, quantity, unit, unit.times(quantity), True)


def extra_lines(job: Job, rules: PriceRules) -> Iterator[PriceLine]:
    """Extras at the price written on the job."""
    for at, extra in enumerate(job.extras):
        if extra.amount.currency != rules.currency:
            raise BadJob(Fault(f"/extras/{at}/amount", f"the shop's prices are in {rules.currency}"))
        if extra.amount.minor < 0:
            raise BadJob(Fault(f"/extras/{at}/amount", "not below zero; what comes off is a discount"))
        yield PriceLine("extra", extra.text, 1, extra.amount, extra.amount, extra.taxed)


def distance_fee(distance_km: float, rules: PriceRules) -> Money:
    """Nothing within the free distance; beyond it by the km, and no less than the least fee."""
    beyond = distance_km - rules.delivery_free_km
    if beyond <= 0:
        return Money(0, rules.currency)
    return max(rules.delivery_least, rules.delivery_per_km.scaled(round(beyond, 3), "up"))


def setting_words(pieces: Sequence[Piece]) -> list[str]:
    """What installing is: only what is quoted with anchors is called anchored, by name where not all is."""
    fixed = list(dict.fromkeys(piece.template.name for piece in pieces if is_fixed(piece)))
    if fixed and all(is_fixed(piece) for piece in pieces):
        return ["set in place, levelled and anchored"]
    return ["set in place and levelled", *(f"{name} anchored" for name in fixed)]


def delivery_line(job: Job, work: Money, done: Sequence[str], rules: PriceRules) -> Iterator[PriceLine]:
    """Delivery, with the hours at the customer's (``work``: their cost, ``done``: what) sold like others."""
    delivery = job.delivery
    if delivery.distance_km <= 0 and not delivery.install:
        return
    amount = shown(distance_fee(delivery.distance_km, rules) + sold_for(work, rules), rules)
    words = ["Delivery"]
    if delivery.distance_km > 0:
        words = [f"Delivery, {_distance(delivery.distance_km, job.units)}"]
    words += done
    free = 0 < delivery.distance_km <= rules.delivery_free_km
    words += [f"no charge within {_distance(rules.delivery_free_km, job.units)}"] if free else []
    yield PriceLine("delivery", "; ".join(words), 1, amount, amount, True)


def _distance(km: float, units: str) -> str:
    return f"{km / KM_A_MILE:.3g} mi" if units == "in" else f"{km:.3g} km"


def discount_lines(job: Job, lines: Sequence[PriceLine], rules: PriceRules) -> Iterator[PriceLine]:
    """The discount as lines below zero, taxed and untaxed part each as large as what it is taken off."""
    if job.discount is None:
        return
    groups = [(taxed, total((line.amount for line in lines if line.taxed is taxed), rules.currency))
              for taxed in (True, False)]
    whole = total((amount for _, amount in groups), rules.currency)
    off = _taken_off(job.discount, whole, rules)
    text = "Discount" + (f": {job.discount.reason}" if job.discount.reason else "")
    for (taxed, _), part in zip(groups, split(off, [amount.minor for _, amount in groups]), strict=True):
        if part.minor:
            yield PriceLine("discount", text, 1, -part, -part, taxed)


def _taken_off(discount: Discount, whole: Money, rules: PriceRules) -> Money:
    if (discount.amount is None) == (not discount.share):
        raise BadJob(Fault("/discount", "either a share or an amount is expected, not both"))
    if discount.amount is not None:
        if discount.amount.currency != rules.currency or not 0 <= discount.amount.minor <= whole.minor:
            raise BadJob(Fault("/discount/amount", f"an amount from 0 to the {whole.text()} {rules.currency} "
                                                   "it is taken off is expected"))
        return discount.amount
    try:
        share = Decimal(discount.share)
    except InvalidOperation:
        share = Decimal("NaN")
    if not (share.is_finite() and 0 <= share <= 1):
        raise BadJob(Fault("/discount/share", f'{discount.share!r} is no share from 0 to 1; 5 % is "0.05"'))
    return whole.scaled(share, rules.rounding)


def rounding_line(lines: Sequence[PriceLine], rules: PriceRules) -> Iterator[PriceLine]:
    """What lifts the sum of the lines to the shop's multiple, as a line of its own."""
    whole = total((line.amount for line in lines), rules.currency)
    more = up_to_multiple(whole, rules.round_total_to) - whole
    if more.minor:
        yield PriceLine("rounding", f"Rounded up to {rules.round_total_to.text()}", 1, more, more, True)
