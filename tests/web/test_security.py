"""The gates before the pages: what a foreign page, name or flood meets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bareshell.web.security import CONTENT_POLICY
from bareshell.web.settings import WebSettings
from tests.web.conftest import HERE, browser, with_sample

if TYPE_CHECKING:
    from starlette.testclient import TestClient

PATHS = ("/proofs", "/proofs.json", "/nothing", "/gives-way", "/wrong", "/static/nothing.css")


@pytest.mark.parametrize("path", PATHS)
def test_every_answer_carries_the_protecting_headers(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    assert headers["content-security-policy"] == CONTENT_POLICY
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"


def test_the_policy_lets_nothing_in_that_is_not_ours() -> None:
    rules = dict(rule.split(" ", 1) for rule in CONTENT_POLICY.split("; "))
    assert rules["default-src"] == rules["frame-ancestors"] == rules["base-uri"] == "'none'"
    assert "unsafe" not in CONTENT_POLICY
    assert not any("http" in rule or "*" in rule for rule in rules.values())


def test_a_page_has_no_inline_script_style_or_handler(client: TestClient) -> None:
    page = client.get("/proofs").text
    assert "<style" not in page
    assert " style=" not in page
    assert " onclick" not in page
    assert page.count("<script") == page.count('<script src="/static/')


@pytest.mark.parametrize("host", ["rebound.example", "127.0.0.1.example:8642", "", "192.168.1.20"])
def test_a_foreign_name_is_not_answered(client: TestClient, host: str) -> None:
    answer = client.get("/proofs", headers={"Host": host})
    assert answer.status_code == 421
    assert "Grey saloon" not in answer.text
    assert "six wheel-end plugs" not in answer.text


@pytest.mark.parametrize("host", ["127.0.0.1:8642", "localhost:8642", "LOCALHOST", "[::1]:8642"])
def test_the_own_names_are_answered(client: TestClient, host: str) -> None:
    assert client.get("/proofs", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE"])
@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {"Origin": ""},
        {"Origin": "http://127.0.0.1:9999"},
        {"Origin": HERE, "Sec-Fetch-Site": "cross-site"},
        {"Origin": HERE, "Sec-Fetch-Site": "same-site"},
        {"Origin": HERE, "Sec-Fetch-Site": "none"},
    ],
)
def test_a_change_from_elsewhere_is_refused(
    client: TestClient, method: str, headers: dict[str, str]
) -> None:
    answer = client.request(method, "/proofs", headers=headers)
    assert answer.status_code == 403
    assert "was not made" in answer.text


@pytest.mark.parametrize("headers", [{}, {"Sec-Fetch-Site": "same-origin"}])
def test_a_change_from_our_own_page_is_taken(client: TestClient, headers: dict[str, str]) -> None:
    assert client.post("/proofs", headers=headers).status_code == 303


def test_reading_needs_no_origin(client: TestClient) -> None:
    assert client.get("/proofs", headers={"Origin": "https://elsewhere.example"}).status_code == 200


def test_a_body_that_says_it_is_too_large_is_not_read(settings: WebSettings) -> None:
    small = browser(with_sample(replace(settings, max_body_bytes=1000)))
    answer = small.post("/light", data={"light": "day", "back": "/" + "x" * 2000})
    assert answer.status_code == 413
    assert "larger than bareshell takes" in answer.text


def test_a_body_that_grows_too_large_is_cut_off(settings: WebSettings) -> None:
    small = browser(with_sample(replace(settings, max_body_bytes=1000)))
    answer = small.post(
        "/light",
        content=(b"x" * 100 for _ in range(50)),
        headers={"Content-Type": "application/x-www-form-urlencoded"},
    )
    assert answer.status_code == 413


def test_a_length_that_is_no_number_is_refused(client: TestClient) -> None:
    assert client.post("/light", headers={"Content-Length": "-5"}).status_code == 400


def test_cookies_are_out_of_reach_of_scripts_and_other_sites(client: TestClient) -> None:
    answer = client.post("/light", data={"light": "garage", "back": "/proofs"})
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "path=/" in cookie
    assert "domain" not in cookie


def test_pages_are_asked_for_anew_and_never_shared(client: TestClient) -> None:
    headers = client.get("/proofs").headers
    assert headers["cache-control"] == "private, no-cache"
    assert "Cookie" in headers["vary"]
    assert "Accept" in headers["vary"]
