"""Which steps of an order of making need neither machine nor iron: what can go on when the current is off."""

import re

#: Common practice, no source: what is sewn, marked or prepared with a needle, chalk and shears alone.
BY_HAND = re.compile(
    r"\b(thread-mark|baste|tack|by hand|fell|hooks?|eyelets?|loops|buttons|catch|gather|clip|trim|hang|level|notch|cut \d+ bones|"
    r"tip|chalk|mark|slip|overcast|pin|try it on)\b",
    re.IGNORECASE,
)
WITH_CURRENT = re.compile(r"\b(fuse|stitch|stitched|stay-stitch|press|pressed|machine|topstitch|understitch|casings for)\b", re.IGNORECASE)


def is_by_hand(text: str) -> bool:
    """“Baste the side seams” is; “Fuse the stay” and “Clip, press open” are not."""
    return bool(BY_HAND.search(text)) and not WITH_CURRENT.search(text)
