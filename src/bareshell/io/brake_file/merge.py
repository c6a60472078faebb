"""A file that begins from a starter: what is written of a part goes over what the starter has."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bareshell.io.build_file.kinds import Plain

__all__ = ["differences", "laid_over"]


def laid_over(base: Mapping[str, Plain], given: Mapping[str, Any]) -> dict[str, Any]:
    """Lay what a file says of a part or line over what its starter says.

    A key of the file wins; ports and ends are laid over each by itself, so that one word about a
    bleed screw does not undo the rest of its caliper.

    Parameters
    ----------
    base : mapping
        The starter's table.
    given : mapping
        The file's table.

    Examples
    --------
    >>> laid_over({"id": "p", "from": {"at": "tee.in", "sex": "male"}}, {"from": "tee.left"})
    {'id': 'p', 'from': {'at': 'tee.left', 'sex': 'male'}}
    """
    merged: dict[str, Any] = dict(base)
    for key, value in given.items():
        if key in ("from", "to") and value != "unknown":
            merged[key] = _end(base.get(key), value)
        elif key == "ports" and isinstance(value, list):
            merged[key] = _ports(base.get(key), value)
        else:
            merged[key] = value
    return merged


def _end(base: object, given: object) -> object:
    old = {"at": base} if isinstance(base, str) else base
    new = {"at": given} if isinstance(given, str) else given
    if isinstance(old, dict) and isinstance(new, dict):
        return {**old, **new}
    return new


def _ports(base: object, given: list[Any]) -> list[Any]:
    old = [dict(each) for each in base] if isinstance(base, list) else []
    place = {each["name"]: number for number, each in enumerate(old)}
    for each in given:
        if isinstance(each, dict) and each.get("name") in place:
            old[place[each["name"]]].update(each)
        else:
            old.append(each)
    return old


def differences(base: Mapping[str, Plain], own: Mapping[str, Plain]) -> dict[str, Plain] | None:
    """Return what has to be written of a part so that laying it over gives the part again.

    Parameters
    ----------
    base, own : mapping
        The starter's table and the part's.

    Returns
    -------
    dict or None
        None when it cannot be said so, and the part has to be written whole.
    """
    found: dict[str, Plain] = {"id": own["id"]}
    for key, value in own.items():
        if key == "ports":
            ports = _changed_ports(base.get("ports"), value)
            if ports is None:
                return None
            if ports:
                found["ports"] = ports
        elif key in ("from", "to"):
            if base.get(key) != value:
                found[key] = value
        elif base.get(key) != value:
            found[key] = value
    for key in base:
        if key not in own:
            if key in ("departure", "note", "title", "ports"):
                return None
            found[key] = "unknown"
    return found if laid_over(base, found) == own or _same(base, found, own) else None


def _same(base: Mapping[str, Plain], found: Mapping[str, Plain], own: Mapping[str, Plain]) -> bool:
    """Whether laying over gives the same once what is unknown is left out."""
    merged = {key: value for key, value in laid_over(base, found).items() if value != "unknown"}
    return merged == dict(own)


def _changed_ports(base: object, own: Plain) -> list[Plain] | None:
    old = base if isinstance(base, list) else []
    new = own if isinstance(own, list) else []
    if [each["name"] for each in new[: len(old)]] != [each["name"] for each in old]:
        return None
    changed: list[Plain] = []
    for number, each in enumerate(new):
        if number >= len(old):
            changed.append(each)
        elif each != old[number]:
            if old[number].keys() - each.keys():
                return None
            kept = {key: value for key, value in each.items() if old[number].get(key) != value}
            changed.append({"name": each["name"], **kept})
    return changed
