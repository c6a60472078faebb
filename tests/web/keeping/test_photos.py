"""Photographs by hand: kept with their job, served small and large, the bad ones told."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from bareshell.app.door import Door
from bareshell.model.note import Photo
from tests.web.conftest import browser
from tests.web.keeping.conftest import app_of
from tests.web.keeping.pictures import huge_png, jpeg
from tests.web.session.by_hand import form_to, press

if TYPE_CHECKING:
    from starlette.testclient import TestClient

Files = list[tuple[str, tuple[str, bytes]]]


def files(*pictures: bytes) -> Files:
    return [("photos", (f"IMG_{n}.jpg", data)) for n, data in enumerate(pictures, 1)]


def sees(client: TestClient, path: str, status: int = 200) -> str:
    answer = client.get(path)
    assert answer.status_code == status, answer.text[:500]
    return str(answer.text)


def keep(client: TestClient, path: str, *pictures: bytes, **filled: str) -> str:
    """Fill in the form of a page, send pictures with it, and see what follows."""
    answer = press(client, form_to(sees(client, path), "/photos"), files(*pictures), **filled)
    assert answer.status_code == 303, answer.text
    return sees(client, answer.headers["location"])


def only(door: Door) -> Photo:
    [photo] = door.build().photos.values()
    return photo


def test_several_are_kept_at_once_with_their_job(client: TestClient, door: Door) -> None:
    page = keep(
        client, "/photos", jpeg("navy"), jpeg("olive"), job="Rear pipe", words="how the clip sat"
    )
    assert "2 photographs are kept, without the place they were taken at." in page
    kept = door.build().photos.values()
    assert {photo.about for photo in kept} == {"job:rear-pipe"}
    assert {photo.words for photo in kept} == {"how the clip sat"}
    album = sees(client, "/photos")
    assert album.count('loading="lazy"') == 2
    assert '<a href="/jobs/rear-pipe">Rear pipe</a>' in album
    assert 'alt="how the clip sat"' in album


def test_a_job_s_own_page_keeps_and_shows_them(client: TestClient, door: Door) -> None:
    page = keep(client, "/jobs/rear-pipe", jpeg(), words="before")
    photo = only(door)
    assert photo.about == "job:rear-pipe"
    assert "<h1>Rear pipe</h1>" in page
    assert f'src="/photos/{photo.id}/small"' in page
    assert f'src="/photos/{photo.id}/small"' not in sees(client, "/jobs/carb")
    assert "None of it yet." in sees(client, "/photos?about=job:carb")


def test_the_file_is_served_with_its_kind_and_kept_by_the_browser(
    client: TestClient, door: Door
) -> None:
    keep(client, "/photos", jpeg(size=(1600, 1200)))
    photo = only(door)
    large, small = client.get(f"/photos/{photo.id}"), client.get(f"/photos/{photo.id}/small")
    for answer in (large, small):
        assert answer.headers["content-type"] == "image/jpeg"
        assert answer.headers["cache-control"] == "private, max-age=31536000, immutable"
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["content-disposition"].startswith("inline")
    with Image.open(BytesIO(large.content)) as image:
        assert image.size == (1600, 1200)
        assert dict(image.getexif()) == {}  # neither the place nor the phone
    with Image.open(BytesIO(small.content)) as image:
        assert max(image.size) <= 480


def test_one_that_is_no_picture_does_not_keep_the_others_out(
    client: TestClient, door: Door
) -> None:
    form = form_to(sees(client, "/photos"), "/photos")
    answer = press(client, form, files(jpeg(), b"a letter"), words="the loom", job="carb")
    assert answer.status_code == 422
    assert "1 of 2 photographs is kept; the other is not." in answer.text
    assert "&#39;IMG_2.jpg&#39;." in answer.text
    assert "It is no picture that can be read" in answer.text
    assert only(door).about == "job:carb"
    # The same form sent again with a good one in its place: what was kept stays once.
    again = form_to(answer.text, "/photos")
    assert (again.value("words"), again.value("job")) == ("the loom", "carb")
    answer = press(client, again, files(jpeg(), jpeg("olive")))
    assert answer.status_code == 303
    assert len(door.build().photos) == 2


def test_a_form_sent_twice_keeps_them_once(client: TestClient, door: Door) -> None:
    form = form_to(sees(client, "/photos"), "/photos")
    for _ in range(2):
        assert press(client, form, files(jpeg(), jpeg("olive"))).status_code == 303
    assert len(door.build().photos) == 2


def test_what_was_taken_back_can_be_kept_again(client: TestClient, door: Door) -> None:
    keep(client, "/photos", jpeg())
    door.take_back(only(door).id)
    assert door.build().photos == {}
    keep(client, "/photos", jpeg())
    assert len(door.build().photos) == 1


def test_a_picture_of_three_hundred_million_pixels_is_refused_in_a_sentence(
    client: TestClient, door: Door
) -> None:
    form = form_to(sees(client, "/photos"), "/photos")
    answer = press(client, form, files(huge_png()))
    assert answer.status_code == 422
    said = "It has more than 120 million pixels. Send it smaller, at most 120 million pixels."
    assert said in answer.text
    assert "No photograph was kept." in answer.text
    assert door.build().photos == {}
    assert list((door.folder / "photos").iterdir()) == []


@pytest.mark.parametrize(
    ("filled", "pictures", "said"),
    [
        ({}, (), "None was chosen"),
        ({"job": "Rear pie"}, (jpeg(),), "There is no job &#39;Rear pie&#39;"),
        ({"job": "Rear pie"}, (jpeg(),), "Did you mean &#39;Rear pipe&#39;"),
    ],
)
def test_what_is_wrong_is_said_and_what_was_typed_stays(
    client: TestClient,
    door: Door,
    filled: dict[str, str],
    pictures: tuple[bytes, ...],
    said: str,
) -> None:
    form = form_to(sees(client, "/photos"), "/photos")
    answer = press(client, form, files(*pictures) or None, words="the loom", **filled)
    assert answer.status_code == 422
    assert said in answer.text
    assert 'value="the loom"' in answer.text
    assert door.build().photos == {}


def test_what_it_shows_must_be_there(client: TestClient, door: Door) -> None:
    for about in ("job:none", "nonsense", "car:car"):
        answer = client.post("/photos", data={"about": about}, files=files(jpeg()))
        assert answer.status_code == 422
        assert "in this build" in answer.text
    assert door.build().photos == {}


def test_one_photograph_has_a_page_and_neighbours(client: TestClient, door: Door) -> None:
    keep(client, "/photos", jpeg("navy"), jpeg("olive"), jpeg("teal"), job="carb", words="throat")
    keep(client, "/photos", jpeg("red"), job="tank")
    ids = [photo["id"] for photo in client.get("/photos.json?about=job:carb").json()["photos"]]
    middle = client.get(f"/photos/{ids[1]}/look.json").json()
    assert (middle["later"], middle["earlier"]) == (ids[0], ids[2])
    page = sees(client, f"/photos/{ids[1]}/look")
    assert f'src="/photos/{ids[1]}"' in page
    assert '<a href="/jobs/carb">Carb</a>' in page
    assert f'href="/record?about=photo%3A{ids[1]}"' in page
    first, last = (sees(client, f"/photos/{key}/look") for key in (ids[0], ids[2]))
    assert "Later one" not in first
    assert "Earlier one" not in last


def test_many_are_shown_a_part_at_a_time(client: TestClient, door: Door) -> None:
    for shade in range(3):
        keep(client, "/photos", *(jpeg(f"rgb({n * 9},{shade * 90},0)", (60, 40)) for n in range(9)))
    page = sees(client, "/photos")
    assert page.count('loading="lazy"') == 24
    assert "1 to 24 of 27" in page
    assert sees(client, "/photos?number=2").count('loading="lazy"') == 3
    assert len(client.get("/photos.json").json()["photos"]) == 27
    assert len(door.build().photos) == 27


@pytest.mark.parametrize("path", ["/photos/none", "/photos/none/small", "/photos/none/look",
                                  "/photos?about=job:none"])  # fmt: skip
def test_what_is_not_there_is_said(client: TestClient, path: str) -> None:
    assert "There is no" in sees(client, path, 404)


def test_a_file_that_is_gone_is_said_without_its_place_on_the_disk(
    client: TestClient, door: Door
) -> None:
    keep(client, "/photos", jpeg())
    photo = only(door)
    (door.folder / "photos" / photo.file).unlink()
    page = sees(client, f"/photos/{photo.id}", 500)
    assert "is not there" in page
    assert str(door.folder) not in page


def test_photographs_may_be_more_than_a_form_but_not_without_end(door: Door) -> None:
    small = browser(app_of(door, max_body_bytes=2_000, max_upload_bytes=60_000))
    assert len(jpeg()) > 2_000
    assert small.post("/photos", files=files(jpeg())).status_code == 303
    answer = small.post("/photos", files=files(b"x" * 70_000))
    assert answer.status_code == 413
    assert "larger than bareshell takes" in answer.text
    assert small.post("/bring-in", files={"file": ("x.csv", b"x" * 70_000)}).status_code == 413
    assert small.post("/look-over/backup", data={"x": "x" * 3_000}).status_code == 413


def test_a_program_is_told_which_were_not_kept(client: TestClient, door: Door) -> None:
    as_json = {"Accept": "application/json"}
    none = client.post("/photos", files=files(b"a letter"), headers=as_json)
    assert none.status_code == 422
    some = client.post("/photos", files=files(jpeg(), b"a letter"), headers=as_json)
    result = some.json()["done"]["result"]
    assert result["kept"] == 1
    assert [one["where"] for one in result["problems"]] == ["'IMG_2.jpg'"]
    assert len(door.build().photos) == 1
