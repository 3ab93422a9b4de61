"""The rules of the trade, in reading order.

errors measure money formula finding market shop site job template piece fit parts cutting
hardware labour pricing checks quote. Nothing here knows a framework or a disk.
"""
