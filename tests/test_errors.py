"""Every error says what happened and what to do, and owns its status and exit code."""

from __future__ import annotations

import http

import pytest

from bareshell.errors import (
    BadInput,
    BareshellError,
    Busy,
    Conflict,
    Damaged,
    Newer,
    NoRoom,
    NotFound,
    NotPaired,
    Problem,
    Refused,
)

EXAMPLES: list[BareshellError] = [
    BareshellError("the printer is off", "switch it on"),
    BadInput("bore", "'wide' is no length", "write it as 19.05 mm"),
    NotFound("there is no job 'fit-wings'", "look for it on the list of jobs"),
    Conflict("job 'fit pedal box'", "was finished on the other phone"),
    Refused("proof before cover", "the rear tee is not proven", "hold it under pressure"),
    Damaged("the archive ends in the middle of a photo", "use an older backup"),
    Newer("this build", "2.0.0", "1.4.1"),
    Busy("another bareshell is writing to this build", "try again in a moment"),
    NoRoom("the disk is full", "free some space"),
    NotPaired("this phone is not paired", "scan the code on the garage computer"),
]


@pytest.mark.parametrize("error", EXAMPLES, ids=lambda error: type(error).__name__)
def test_an_error_reads_as_two_closed_sentences(error: BareshellError) -> None:
    told = error.describe()
    assert told == str(error)
    assert told.endswith(".")
    assert error.message in told
    assert error.remedy[1:] in told


@pytest.mark.parametrize("error", EXAMPLES, ids=lambda error: type(error).__name__)
def test_a_status_is_an_http_error_status(error: BareshellError) -> None:
    assert http.HTTPStatus(error.status).value >= 400  # names from RFC 9110, by the library


def test_each_kind_of_error_leaves_its_own_exit_code_and_word() -> None:
    kinds = [type(error) for error in EXAMPLES]
    assert len({kind.exit_code for kind in kinds}) == len(kinds)
    assert len({kind.kind for kind in kinds}) == len(kinds)
    assert all(1 <= kind.exit_code < 64 for kind in kinds)


def test_a_stranger_and_a_known_phone_get_different_answers() -> None:
    assert NotPaired("this phone is not paired").status == http.HTTPStatus.UNAUTHORIZED
    known = NotPaired("a helper's phone may not take entries back", known=True)
    assert known.status == http.HTTPStatus.FORBIDDEN


def test_a_form_with_two_wrong_fields_tells_of_both() -> None:
    both = BadInput.together(
        [Problem("bore", "is missing", "measure it"), Problem("stroke", "is zero")]
    )
    assert both.field == "bore"
    assert both.describe() == "bore: is missing. Measure it. stroke: is zero."


def test_a_question_is_not_closed_with_a_stop() -> None:
    assert Problem("bore", "is unusual", "is it right?").describe().endswith("Is it right?")


def test_what_was_asked_is_kept_for_the_reader_of_the_data() -> None:
    refused = Refused("proof before cover", "the rear tee is not proven", "hold it")
    assert (refused.rule, refused.because, refused.frees) == (
        "proof before cover",
        "the rear tee is not proven",
        "hold it",
    )
