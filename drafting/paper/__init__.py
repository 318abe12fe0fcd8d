"""Paper at full size, and files for others: pattern pages, tags, DXF, SVG, the cut list as a table.

All are made from (order file, result) alone, as the job sheet is.
"""
