"""Words that are usual in a field of a specification: offered while it is typed, never demanded.

One word for one thing lets what is wanted and what lies here be compared: "hexagon" on both is the
same, "hex" and "hexagon" are for eyes to compare. Trade terms (common practice, no source).
"""

from __future__ import annotations

from typing import Final

__all__ = ["usual_words"]

_SEATS: Final = ("bubble flare", "double flare", "cone", "flat with washer", "banjo")
_STEELS: Final = ("mild steel", "EN8", "EN16T", "stainless steel")

_BY_FIELD: Final[dict[str, tuple[str, ...]]] = {
    "head": ("hexagon", "flange", "socket cap", "pan", "countersunk", "dome"),
    "drive": ("hexagon", "socket", "slot", "cross", "splined"),
    "grade": ("8.8", "10.9", "12.9", "4.6", "grade 5", "grade 8", "A2-70", "A4-80"),
    "lock": (
        "nyloc",
        "castle nut and split pin",
        "distorted thread",
        "tab washer",
        "lock wire",
        "spring washer",
        "thread lock",
    ),
    "washer": ("plain", "spring", "penny", "copper", "none"),
    "finish": ("zinc", "plain", "phosphate", "blacked", "painted"),
    "sex": ("male", "female"),
    "seat": _SEATS,
    "flare": ("double", "bubble", "single"),
    "lead": ("plain lead", "none"),
    "carries": ("brake fluid", "coolant", "petrol", "oil", "vacuum", "air"),
    "hand": ("left", "right"),
    "fluid_base": ("glycol", "silicone", "mineral"),
    "bleed_place": ("top", "bottom"),
    "seal_material": ("EPDM", "nitrile", "natural rubber"),
    "split": ("front and rear", "diagonal"),
    "residual_valve": ("none", "in the port"),
    "corners": ("moulded", "mitred"),
    "shape": ("straight", "one bend, 90 degrees", "two bends"),
    "tint": ("clear", "green", "bronze", "grey"),
    "heater": ("heated", "none"),
    "edge": ("ground", "as cut"),
    "where": ("windscreen", "rear screen", "left door", "right door", "left quarter",
              "right quarter"),
    "bracket": ("12.7 mm hole, clip", "12.7 mm hole, nut", "none"),
    "colour": ("black", "red", "blue", "green", "brown", "white", "yellow"),
}  # fmt: skip
_BY_KIND: Final[dict[tuple[str, str], tuple[str, ...]]] = {
    ("bolt", "what"): ("bolt", "set screw", "stud", "nut", "self-tapping screw"),
    ("pin", "head"): ("flat", "none", "ring"),
    ("pin", "material"): _STEELS,
    ("split pin", "material"): ("steel", "stainless steel", "brass"),
    ("pipe", "material"): ("copper-nickel", "steel", "stainless steel"),
    ("seal", "material"): ("nitrile", "EPDM", "fluorocarbon", "silicone"),
    ("cylinder", "what"): ("clutch slave", "clutch master"),
    ("electrical", "what"): ("fuse", "relay", "cable", "lamp", "switch", "connector", "terminal"),
    ("goods", "what"): ("seam sealer", "cavity wax", "damping sheet", "adhesive", "brake fluid"),
    ("goods", "amount"): ("1 l", "500 ml", "1 kg", "2 sheets", "1 tube"),
}


def usual_words(kind: str, name: str) -> tuple[str, ...]:
    """Return the words that are usual in a field; none where there are no usual ones.

    Parameters
    ----------
    kind, name : str
        The kind of part, and its field.

    Examples
    --------
    >>> usual_words("hose", "seat_b")[0], usual_words("pin", "head")
    ('bubble flare', ('flat', 'none', 'ring'))
    >>> usual_words("bearing", "number")
    ()
    """
    field = name.removesuffix("_a").removesuffix("_b").removeprefix("port_")
    return _BY_KIND.get((kind, name)) or _BY_FIELD.get(field, ())
