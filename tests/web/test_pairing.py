"""Home mode: strangers see how to pair and nothing else; a paired phone comes in."""

from __future__ import annotations

import json
import re
import stat
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from bareshell.errors import BadInput, Damaged, NotFound, NotPaired
from bareshell.web import cookies
from bareshell.web.devices import Device, JsonDeviceStore
from bareshell.web.pairing import (
    CODE_LASTS,
    LETTERS,
    PairingDesk,
    TooManyTries,
    random_code,
    random_key,
)
from bareshell.web.settings import WebSettings
from tests.web.conftest import AT_HOME, HERE, Clock, MemoryStore, browser, with_sample

if TYPE_CHECKING:
    from fastapi import FastAPI
    from starlette.testclient import TestClient

BUILD_WORDS = ("Grey saloon", "invented", "axle pipes", "under-car", "Tonight", "Road ahead")


@pytest.fixture
def home(home_settings: WebSettings) -> FastAPI:
    return with_sample(home_settings)


@pytest.fixture
def phone(home: FastAPI) -> TestClient:
    return browser(home, AT_HOME, "192.168.1.77")


@pytest.fixture
def computer(home: FastAPI) -> TestClient:
    return browser(home, HERE, "127.0.0.1")


def pair(phone: TestClient, app: FastAPI, name: str = "garage phone") -> None:
    code = app.state.pairing.new_code()
    assert phone.post("/pair", data={"code": code.letters, "name": name}).status_code == 303


def every_path(app: FastAPI) -> list[tuple[str, str]]:
    """Every method and path the application answers, and some it does not."""
    found = [("GET", "/"), ("GET", "/nothing"), ("GET", "/openapi.json"), ("POST", "/nothing")]
    found += [
        (method.upper(), path.replace("{", "").replace("}", ""))
        for path, methods in app.openapi()["paths"].items()
        for method in methods
    ]
    found += [
        (method, route.path)
        for route in app.routes
        if isinstance(route, Route) and "{" not in route.path
        for method in route.methods or ()
    ]
    return [(method, path) for method, path in found if path != "/pair"]


def test_strangers_see_nothing_of_the_build_on_any_path(home: FastAPI, phone: TestClient) -> None:
    paths = every_path(home)
    assert len(paths) > 12
    for method, path in paths:
        answer = phone.request(method, path)
        assert answer.status_code == 401, (method, path)
        for word in BUILD_WORDS:
            assert word not in answer.text, (method, path, word)
        if method == "GET" and not path.endswith(".json"):
            assert "Pair this device" in answer.text


def test_strangers_get_no_json_either(phone: TestClient) -> None:
    answer = phone.get("/proofs.json")
    assert answer.status_code == 401
    assert set(answer.json()) == {"format", "error"}
    assert answer.json()["error"]["kind"] == "not paired"


def test_the_pairing_page_and_its_style_are_open(phone: TestClient) -> None:
    page = phone.get("/pair")
    assert page.status_code == 200
    for path in re.findall(r'"(/static/[^"]+)"', page.text):
        assert phone.get(path).status_code == 200
    assert not any(word in page.text for word in BUILD_WORDS)


def test_a_code_from_the_camera_is_filled_in_but_not_taken_by_looking(
    home: FastAPI, phone: TestClient
) -> None:
    code = home.state.pairing.new_code()
    page = phone.get(f"/pair?code={code.letters}")
    assert f'value="{code.letters}"' in page.text
    assert home.state.pairing.code() == code
    assert phone.get("/proofs").status_code == 401


def test_a_paired_phone_comes_in(home: FastAPI, phone: TestClient) -> None:
    pair(phone, home)
    assert phone.get("/proofs").status_code == 200
    assert "Grey saloon" in phone.get("/proofs").text
    other = browser(home, AT_HOME, "192.168.1.78")
    assert other.get("/proofs").status_code == 401


def test_the_key_cookie_is_out_of_reach_of_scripts(home: FastAPI, phone: TestClient) -> None:
    code = home.state.pairing.new_code()
    answer = phone.post("/pair", data={"code": code.letters, "name": "phone"})
    cookie = answer.headers["set-cookie"].lower()
    assert cookie.startswith(cookies.DEVICE)
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


def test_a_code_is_good_for_one_device(home: FastAPI, phone: TestClient) -> None:
    code = home.state.pairing.new_code()
    form = {"code": code.letters, "name": "phone"}
    assert phone.post("/pair", data=form).status_code == 303
    other = browser(home, AT_HOME, "192.168.1.78")
    assert other.post("/pair", data=form).status_code == 401


def test_a_made_up_key_opens_nothing(home: FastAPI, phone: TestClient) -> None:
    pair(phone, home)
    stranger = browser(home, AT_HOME, "192.168.1.80")
    stranger.cookies.set(cookies.DEVICE, "made-up")
    assert stranger.get("/proofs").status_code == 401


def test_pairing_from_another_site_is_refused(home: FastAPI, phone: TestClient) -> None:
    code = home.state.pairing.new_code()
    answer = phone.post(
        "/pair",
        data={"code": code.letters, "name": "phone"},
        headers={"Origin": "http://elsewhere.example"},
    )
    assert answer.status_code == 403
    assert home.state.pairing.code() == code


def test_a_public_address_does_not_even_see_the_pairing_page(home: FastAPI) -> None:
    outside = browser(home, AT_HOME, "8.8.4.4")
    answer = outside.post("/pair", data={"code": "23456789", "name": "phone"})
    assert answer.status_code == 401
    assert home.state.pairing.devices() == ()


def test_this_computer_needs_no_pairing_but_only_under_its_own_name(
    home: FastAPI, computer: TestClient
) -> None:
    assert computer.get("/proofs").status_code == 200
    relayed = browser(home, AT_HOME, "127.0.0.1")
    assert relayed.get("/proofs").status_code == 401


def test_without_home_mode_nothing_is_asked(client: TestClient) -> None:
    assert client.get("/proofs").status_code == 200
    assert client.get("/pair").status_code == 303


def test_devices_are_listed_and_forgotten_on_the_computer(
    home: FastAPI, phone: TestClient, computer: TestClient
) -> None:
    pair(phone, home, "garage <phone>")
    listed = computer.get("/devices")
    assert "garage &lt;phone&gt;" in listed.text
    device = home.state.pairing.devices()[0]
    assert device.key_hash not in listed.text
    assert device.key_hash not in computer.get("/devices.json").text
    assert computer.post(f"/devices/{device.id}/forget").status_code == 303
    assert phone.get("/proofs").status_code == 401


def test_a_phone_can_neither_make_codes_nor_forget_devices(
    home: FastAPI, phone: TestClient
) -> None:
    pair(phone, home)
    device = home.state.pairing.devices()[0]
    for method, path in (
        ("GET", "/devices"),
        ("POST", "/devices/code"),
        ("POST", f"/devices/{device.id}/forget"),
    ):
        assert phone.request(method, path).status_code == 403
    assert home.state.pairing.code() is None
    assert phone.get("/proofs").status_code == 200


def test_the_computer_shows_a_code_in_letters_and_for_the_camera(
    home: FastAPI, computer: TestClient
) -> None:
    assert computer.post("/devices/code").status_code == 303
    page = computer.get("/devices").text
    assert home.state.pairing.code().spaced in page
    assert 'class="qr"' in page


class TestDesk:
    """The desk itself, with a clock wound by hand."""

    @pytest.fixture
    def desk(self, store: MemoryStore, clock: Clock) -> PairingDesk:
        return PairingDesk(store, clock)

    def test_small_letters_spaces_and_hyphens_do_no_harm(self, desk: PairingDesk) -> None:
        code = desk.new_code()
        typed = f" {code.letters[:4].lower()}-{code.letters[4:]} "
        assert desk.device(desk.pair(typed, "phone", "192.168.1.2"))

    def test_a_code_lapses(self, desk: PairingDesk, clock: Clock) -> None:
        code = desk.new_code()
        clock.forward(CODE_LASTS)
        assert desk.code() is None
        with pytest.raises(NotPaired):
            desk.pair(code.letters, "phone", "192.168.1.2")

    def test_a_new_code_replaces_the_old_one(self, desk: PairingDesk) -> None:
        old = desk.new_code()
        desk.new_code()
        with pytest.raises(NotPaired):
            desk.pair(old.letters, "phone", "192.168.1.2")

    def test_without_a_code_on_show_nothing_fits(self, desk: PairingDesk) -> None:
        for guess in ("", " ", "23456789"):
            with pytest.raises(NotPaired):
                desk.pair(guess, "phone", "192.168.1.2")

    def test_five_wrong_codes_shut_an_address_out_even_with_the_right_one(
        self, desk: PairingDesk
    ) -> None:
        code = desk.new_code()
        for _ in range(5):
            with pytest.raises(NotPaired):
                desk.pair("22222222", "phone", "192.168.1.2")
        with pytest.raises(TooManyTries) as refused:
            desk.pair(code.letters, "phone", "192.168.1.2")
        assert refused.value.status == 429
        assert desk.device(desk.pair(code.letters, "other", "192.168.1.3"))

    def test_twenty_wrong_codes_in_all_withdraw_the_code(self, desk: PairingDesk) -> None:
        desk.new_code()
        for number in range(20):
            with pytest.raises(NotPaired):
                desk.pair("22222222", "phone", f"192.168.1.{2 + number // 4}")
        assert desk.code() is None

    @pytest.mark.parametrize("name", ["", "   ", "x" * 41])
    def test_a_device_has_a_name_of_a_length(self, desk: PairingDesk, name: str) -> None:
        code = desk.new_code()
        with pytest.raises(BadInput, match="name of this device"):
            desk.pair(code.letters, name, "192.168.1.2")
        assert desk.code() == code

    def test_only_the_hash_of_a_key_is_kept(self, desk: PairingDesk, store: MemoryStore) -> None:
        key = desk.pair(desk.new_code().letters, "phone", "192.168.1.2")
        assert key not in repr(store.kept)
        assert store.kept[0].key_hash != key

    def test_devices_last_from_one_start_to_the_next(
        self, desk: PairingDesk, store: MemoryStore, clock: Clock
    ) -> None:
        key = desk.pair(desk.new_code().letters, "phone", "192.168.1.2")
        assert PairingDesk(store, clock).device(key)

    def test_the_day_a_device_was_last_here_is_noted(
        self, desk: PairingDesk, store: MemoryStore, clock: Clock
    ) -> None:
        key = desk.pair(desk.new_code().letters, "phone", "192.168.1.2")
        clock.forward(timedelta(days=3))
        assert desk.device(key)
        assert store.kept[0].seen_on == clock.now.date()
        assert store.kept[0].paired_at.date() != clock.now.date()

    def test_forgetting_nobody_is_an_error(self, desk: PairingDesk) -> None:
        with pytest.raises(NotFound):
            desk.revoke("nobody")

    def test_codes_are_eight_letters_that_cannot_be_mistaken(self) -> None:
        codes = {random_code() for _ in range(200)}
        assert len(codes) == 200
        assert all(len(code) == 8 and set(code) <= set(LETTERS) for code in codes)
        assert not set(LETTERS) & set("01OIL")

    def test_keys_are_long_and_new_each_time(self) -> None:
        assert len({random_key() for _ in range(50)}) == 50
        assert len(random_key()) >= 43  # 256 bits in base 64


class TestJsonDeviceStore:
    """The small file in the build's own folder."""

    DEVICE = Device(
        "ab12",
        "garage phone",
        "0" * 64,
        datetime(2026, 11, 25, tzinfo=UTC),
        datetime(2026, 11, 25, tzinfo=UTC).date(),
    )

    def test_what_is_saved_is_loaded(self, tmp_path: Path) -> None:
        store = JsonDeviceStore(tmp_path / "devices.json")
        assert store.load() == ()
        store.save((self.DEVICE,))
        store.save((self.DEVICE, replace(self.DEVICE, id="cd34")))
        assert store.load() == (self.DEVICE, replace(self.DEVICE, id="cd34"))

    def test_only_its_owner_can_read_the_file(self, tmp_path: Path) -> None:
        path = tmp_path / "devices.json"
        JsonDeviceStore(path).save((self.DEVICE,))
        assert stat.S_IMODE(path.stat().st_mode) == 0o600

    @pytest.mark.parametrize(
        "spoilt", ["", "[]", '{"format": 2, "devices": []}', '{"format": 1, "devices": [{}]}', "{"]
    )
    def test_a_spoilt_file_lets_nobody_in(self, tmp_path: Path, spoilt: str) -> None:
        path = tmp_path / "devices.json"
        path.write_text(spoilt, encoding="utf-8")
        with pytest.raises(Damaged, match="pair the phones again"):
            JsonDeviceStore(path).load()

    def test_the_file_says_its_format(self, tmp_path: Path) -> None:
        path = tmp_path / "devices.json"
        JsonDeviceStore(path).save(())
        assert json.loads(path.read_text(encoding="utf-8")) == {"format": 1, "devices": []}


# --- the calendar, which carries no cookie -------------------------------------------------------


@pytest.fixture
def with_calendar(home_settings: WebSettings) -> FastAPI:
    app = with_sample(home_settings)
    app.router.routes.insert(0, Route("/calendar.ics", lambda _request: PlainTextResponse("days")))
    return app


def test_a_calendar_comes_in_by_the_key_of_its_device_and_to_the_calendar_only(
    with_calendar: FastAPI,
) -> None:
    phone = browser(with_calendar, AT_HOME, "192.168.1.77")
    pair(phone, with_calendar)
    desk: PairingDesk = with_calendar.state.pairing
    key = desk.calendar_key(desk.devices()[0])
    calendar = browser(with_calendar, AT_HOME, "192.168.1.78")
    assert calendar.get("/calendar.ics").status_code == 401
    assert calendar.get("/calendar.ics", params={"key": "guess"}).status_code == 401
    assert calendar.get("/calendar.ics", params={"key": key}).text == "days"
    assert calendar.get("/tonight", params={"key": key}).status_code == 401
    assert calendar.get("/", params={"key": key}).status_code in (303, 401)
    abroad = browser(with_calendar, AT_HOME, "8.8.8.8")
    assert abroad.get("/calendar.ics", params={"key": key}).status_code == 401
    desk.revoke(desk.devices()[0].id)
    assert calendar.get("/calendar.ics", params={"key": key}).status_code == 401
