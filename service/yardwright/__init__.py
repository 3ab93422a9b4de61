"""From a tape and a phone in the customer's yard to a price on paper the shop can stand behind."""

__version__ = "0.1.0"
