"""The files pages load, each under a name that carries the hash of its content.

A browser may keep such a file for a year: a changed file has another name. The hash is taken
when the pages start, so there is no build step and no stale style sheet.
"""

from __future__ import annotations

import hashlib
import mimetypes
from dataclasses import dataclass
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response

from bareshell.errors import NotFound

STATIC_FOLDER = Path(__file__).parent / "static"
PREFIX = "/static/"
_KEPT = "public, max-age=31536000, immutable"


@dataclass(frozen=True, slots=True)
class Asset:
    """One file, ready to be sent."""

    content: bytes
    media_type: str


class Assets:
    """Every file of a folder, read once.

    Parameters
    ----------
    folder : Path
        Where the files lie; sub-folders and JSON manifests are not served.
    """

    def __init__(self, folder: Path = STATIC_FOLDER) -> None:
        self._named: dict[str, str] = {}
        self._served: dict[str, Asset] = {}
        for file in sorted(folder.iterdir()):
            if not file.is_file() or file.suffix == ".json":
                continue
            content = file.read_bytes()
            digest = hashlib.sha256(content).hexdigest()[:12]
            served = f"{file.stem}.{digest}{file.suffix}"
            media = mimetypes.guess_type(file.name)[0] or "application/octet-stream"
            self._named[file.name] = PREFIX + served
            self._served[served] = Asset(content, media)

    def url(self, name: str) -> str:
        """The address of a file, with its hash.

        Parameters
        ----------
        name : str
            The file's own name, ``look.css``.

        Raises
        ------
        KeyError
            When there is no such file: a template asks for something that was never there.
        """
        return self._named[name]

    def urls(self) -> tuple[str, ...]:
        """Every address that is served."""
        return tuple(self._named.values())

    async def respond(self, request: Request) -> Response:
        """Send one file."""
        asset = self._served.get(request.path_params["name"])
        if asset is None:
            raise NotFound("there is no such file", "load the page again")
        headers = {"Cache-Control": _KEPT, "ETag": f'"{request.path_params["name"]}"'}
        return Response(asset.content, media_type=asset.media_type, headers=headers)
