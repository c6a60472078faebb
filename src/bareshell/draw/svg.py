"""SVG as text: elements, escaping and numbers.

Pictures are shown under a content policy that blocks style attributes, so an element refuses one;
looks come from the classes of the style sheet and from SVG's own presentation attributes. Every
word that reaches a picture goes through `escaped`, whoever wrote it.
"""

from __future__ import annotations

from typing import Final

Attribute = str | float | None
"""What an attribute may be given as; None leaves it out."""

_NOT_IN_XML: Final = {code: None for code in range(32) if code not in (9, 10, 13)} | {
    0xFFFE: None,
    0xFFFF: None,
}


class Svg(str):
    """A finished piece of SVG, as opposed to words that still need escaping.

    Template engines ask for ``__html__`` and then leave the text as it is.
    """

    __slots__ = ()

    def __html__(self) -> str:
        """Return the markup itself."""
        return str(self)


def escaped(words: str) -> Svg:
    """Words made fit to stand in markup or in an attribute.

    Parameters
    ----------
    words : str
        Anything a person typed. Control characters that XML forbids are left out.

    Examples
    --------
    >>> escaped('<3/8"> & M10')
    '&lt;3/8&quot;&gt; &amp; M10'
    """
    clean = words.translate(_NOT_IN_XML)
    for plain, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        clean = clean.replace(plain, entity)
    return Svg(clean.replace("'", "&#39;"))


def number(value: float) -> str:
    """A coordinate with at most two decimals and no idle zeros.

    Examples
    --------
    >>> [number(v) for v in (3.0, 2.50, -0.001, 1 / 3)]
    ['3', '2.5', '0', '0.33']
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(tag: str, *children: Svg, **attributes: Attribute) -> Svg:
    """One element with its children.

    Parameters
    ----------
    tag : str
        The element's name.
    *children : Svg
        Markup that goes inside, in order.
    **attributes : str, float or None
        ``text_anchor`` becomes ``text-anchor``, ``class_`` becomes ``class``; None is left out.

    Raises
    ------
    ValueError
        When a style attribute is asked for: the page's content policy would drop it.

    Examples
    --------
    >>> element("rect", x=1.50, width=20, class_="box", rx=None)
    '<rect x="1.5" width="20" class="box"/>'
    """
    written = []
    for name, value in attributes.items():
        if value is None:
            continue
        if name == "style":
            raise ValueError("Pictures carry classes, never a style attribute.")
        shown = value if isinstance(value, str) else number(value)
        written.append(f' {name.rstrip("_").replace("_", "-")}="{escaped(shown)}"')
    opening = f"<{tag}{''.join(written)}"
    if not children:
        return Svg(f"{opening}/>")
    return Svg(f"{opening}>{''.join(children)}</{tag}>")


def joined(*pieces: Svg) -> Svg:
    """Pieces one after the other."""
    return Svg("".join(pieces))


def text(
    x: float | str,
    y: float | str,
    words: str,
    class_: str | None = None,
    anchor: str | None = None,
    **attributes: Attribute,
) -> Svg:
    """A line of words, escaped.

    Parameters
    ----------
    x, y : float or str
        Where the baseline starts (or ends, or has its middle). [px or %]
    words : str
        What to write.
    class_ : str, optional
        Class of the style sheet, such as ``t-name``.
    anchor : {'middle', 'end'}, optional
        Which point of the line stands at x.

    Examples
    --------
    >>> text(4, 10, "pads & shoes", "t-soft")
    '<text x="4" y="10" class="t-soft">pads &amp; shoes</text>'
    """
    return element(
        "text", escaped(words), x=x, y=y, class_=class_, text_anchor=anchor, **attributes
    )


def rect(
    x: float | str,
    y: float | str,
    width: float | str,
    height: float | str,
    class_: str | None = None,
    **attributes: Attribute,
) -> Svg:
    """A rectangle; see `element` for the attributes."""
    return element("rect", x=x, y=y, width=width, height=height, class_=class_, **attributes)


def path(d: str, class_: str | None = None, **attributes: Attribute) -> Svg:
    """A path; see `element` for the attributes."""
    return element("path", d=d, class_=class_, **attributes)


def circle(x: float, y: float, r: float, class_: str | None = None) -> Svg:
    """A circle about (x, y)."""
    return element("circle", cx=x, cy=y, r=r, class_=class_)


def picture(
    width: float, height: float, label: str, *children: Svg, class_: str | None = None
) -> Svg:
    """A whole drawing with its sentence for those who cannot see it.

    Parameters
    ----------
    width, height : float
        The drawing's own space; the page scales it to the plate. [px]
    label : str
        A full sentence that says what the picture shows, with its result.
    *children : Svg
        What is drawn.
    class_ : str, optional
        ``narrow`` for a drawing made for a phone.
    """
    return element(
        "svg",
        *children,
        class_=class_,
        viewBox=f"0 0 {number(width)} {number(height)}",
        role="img",
        aria_label=label,
    )


def decoration(width: float, height: float, *children: Svg, class_: str | None = None) -> Svg:
    """A small mark that repeats words standing beside it, hidden from screen readers."""
    return element(
        "svg",
        *children,
        class_=class_,
        viewBox=f"0 0 {number(width)} {number(height)}",
        aria_hidden="true",
        focusable="false",
    )
