"""Blocks: the parts that garments are put together from, each drawn from figures that are already worked out."""
