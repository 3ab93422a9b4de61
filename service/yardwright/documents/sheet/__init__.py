"""The workshop's packet: what to cut, buy, make and watch, and what the price is made of."""
