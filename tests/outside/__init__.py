"""Checks from outside: they know the order file, the result file and geometry, and nothing of how a draft is made."""
