"""Who may do what. A view asks for a capability, never for a role."""

OWNER, SEAMSTRESS, APPRENTICE = "owner", "seamstress", "apprentice"

ROLES = (
    (OWNER, "owner"),
    (SEAMSTRESS, "seamstress"),
    (APPRENTICE, "apprentice"),
)

#: What each role is for, in the words of the People page.
ROLE_MEANS = {
    OWNER: "Everything: prices, sign-off before cutting, settings and people.",
    SEAMSTRESS: "Clients, measures, orders, drafts and payments. No prices to set, no settings.",
    APPRENTICE: "The work, the drafts and the job sheets. Sees neither money nor phone numbers.",
}

_EVERYONE = frozenset({"see_work", "tick_work", "see_clients", "print_sheets"})
_AT_THE_TABLE = _EVERYONE | {
    "see_phone",
    "see_money",
    "measure",
    "edit_clients",
    "edit_orders",
    "take_payment",
    "draft",
}
_IN_CHARGE = _AT_THE_TABLE | {"set_price", "refund", "sign_off", "run_workshop"}

MAY = {APPRENTICE: _EVERYONE, SEAMSTRESS: _AT_THE_TABLE, OWNER: _IN_CHARGE}
CAPABILITIES = _IN_CHARGE


class UnknownCapability(Exception):
    """A capability that no role has: a slip in the program, so it is never passed over in silence."""


def may(role: str, capability: str) -> bool:
    """Whether that role has the capability. Raises UnknownCapability for a word not listed above."""
    if capability not in CAPABILITIES:
        raise UnknownCapability(capability)
    return capability in MAY.get(role, frozenset())
