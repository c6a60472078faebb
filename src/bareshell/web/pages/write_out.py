"""Writing out: the build as text, as lists for a spreadsheet, whole as an archive."""

from __future__ import annotations

from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import FileResponse, Response

from bareshell.app import writing_out
from bareshell.app.exchange import export_build_file, export_sheet
from bareshell.errors import NotFound
from bareshell.io.sheets import SheetFormat
from bareshell.web.desk import door_of
from bareshell.web.twin import PageRouter, page

router = PageRouter()

PATH = "/write-out"
TYPES: dict[SheetFormat, str] = {
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
}


@router.page(PATH)
def write_out(request: Request) -> Response:
    """Show what can be written out."""
    return page(request, "keeping/write_out.html", writing_out.write_out(door_of(request)))


@router.get(PATH + "/build-file", response_model=None)
def build_file(request: Request) -> Response:
    """Send the build as a build file."""
    door = door_of(request)
    name = writing_out.file_name(door, "", "toml")
    return download(export_build_file(door).encode(), name, "application/toml; charset=utf-8")


@router.get(PATH + "/archive", response_model=None)
def archive(request: Request) -> Response:
    """Make an archive and send it; the file it was made in is thrown away after."""
    door = door_of(request)
    made = writing_out.make_archive(door)
    return FileResponse(
        made.path,
        media_type="application/zip",
        filename=writing_out.file_name(door, "archive", "zip"),
        headers={"Cache-Control": "no-store"},
        background=BackgroundTask(writing_out.throw_away, made.path),
    )


@router.get(PATH + "/{what}.xlsx", response_model=None)
def workbook(request: Request, what: str) -> Response:
    """Send a list as a spreadsheet."""
    return _list(request, what, "xlsx")


@router.get(PATH + "/{what}.csv", response_model=None)
def text(request: Request, what: str) -> Response:
    """Send a list as CSV."""
    return _list(request, what, "csv")


def _list(request: Request, what: str, form: SheetFormat) -> Response:
    door = door_of(request)
    kind = writing_out.LISTS.get(what)
    if kind is None:
        lists = ", ".join(writing_out.LISTS)
        raise NotFound(f"there is no list '{what}' to write out", f"choose one of {lists}")
    name = writing_out.file_name(door, what, form)
    return download(export_sheet(door, kind, form), name, TYPES[form])


def download(content: bytes, name: str, media_type: str) -> Response:
    """Send a file that is kept nowhere on the way."""
    headers = {
        "Content-Disposition": f'attachment; filename="{name}"',
        "Cache-Control": "no-store",
    }
    return Response(content, media_type=media_type, headers=headers)
