"""Pictures on the page: sent by a phone, checked as at the desk, shown to who may see them."""

from __future__ import annotations

import io
from typing import Any

import pytest
from PIL import Image
from werkzeug.test import TestResponse

from invented_pictures import SECRETS, exif, jpeg, paper, picture, zipped
from page.phones import HOST, ORIGIN, Clock, Phone
from warmside.core.file.pictures.places import pictures_of
from warmside.page.app import Page
from warmside.page.phones.inviting import sitters_rights
from warmside.page.posts.pictures import MOST_UPLOAD
from warmside.testing import Keeper

CAMERA = 'name="photo"'


def send(
    phone: Phone,
    screen: str,
    *files: tuple[str, bytes],
    origin: str = ORIGIN,
    fields: dict[str, str] | None = None,
    **said: str,
) -> TestResponse:
    """Send files by the form of a screen, as a browser does."""
    form = dict(fields or phone.form(screen, CAMERA))
    action = form.pop("", "/picture")
    data: dict[str, Any] = {**form, **said}
    data["photo"] = [(io.BytesIO(content), name) for name, content in files]
    return phone.client.post(
        action,
        base_url=f"http://{HOST}",
        data=data,
        content_type="multipart/form-data",
        headers={"Origin": origin},
    )


def pictures(keeper: Keeper) -> list[Any]:
    return list(keeper.json("picture", "list")["pictures"])


@pytest.fixture
def sitter(page: Page, keeper: Keeper) -> Phone:
    """Who looks after LOW until 7 March."""
    with keeper.book() as book:
        rights = sitters_rights(book, "2026-03-07", ("low",), (), "", "")
    return Phone(page).pair(rights, "Ada")


def test_a_picture_from_the_camera_is_on_the_screen_and_in_the_record(
    phone: Phone, keeper: Keeper
) -> None:
    answer = send(phone, "/WS.A.EMB", ("image.jpg", jpeg(exif=exif(6))), view="wound", note="red")
    assert answer.status_code == 303
    shown = phone.get(answer.location).text
    assert "Recorded: took in 1 file of Ember" in shown and "Undo" in shown
    assert 'src="/picture/1?small=1"' in shown and "wound" in shown and "red" in shown
    (told,) = pictures(keeper)
    assert (told["day"], told["view"], told["note"]) == ("2026-02-14", "wound", "red")
    small, whole = (phone.get(f"/picture/1{q}") for q in ("?small=1", ""))
    assert small.mimetype == whole.mimetype == "image/jpeg"
    assert Image.open(io.BytesIO(whole.data)).size == (36, 48)
    assert not any(secret in whole.data + small.data for secret in SECRETS)
    assert small.headers["X-Content-Type-Options"] == "nosniff"


def test_a_post_sent_twice_is_one_picture(phone: Phone, keeper: Keeper) -> None:
    form = phone.form("/WS.A.EMB", CAMERA)
    for name in ("a.jpg", "b.jpg"):
        content = jpeg(picture(30 if name == "a.jpg" else 50, 40))
        assert send(phone, "", (name, content), fields=form).status_code == 303
    assert len(pictures(keeper)) == 1


def test_a_picture_that_waited_has_the_day_on_which_it_was_chosen(
    phone: Phone, keeper: Keeper
) -> None:
    form = phone.form("/WS.A.EMB", CAMERA) | {"age": str(3 * 86_400)}
    send(phone, "", ("a.jpg", jpeg(picture(30, 40))), fields=form)
    form = phone.form("/WS.A.EMB", CAMERA) | {"age": str(3 * 86_400)}
    send(phone, "", ("b.jpg", jpeg(picture(50, 40), exif=exif())), fields=form)
    assert [p["day"] for p in pictures(keeper)] == [
        "2026-02-14",
        "2026-03-02",
    ]  # the camera's first


def test_several_from_the_phone_are_taken_in_together_or_not_at_all(
    phone: Phone, keeper: Keeper
) -> None:
    good = [(f"{n}.jpg", jpeg(picture(20 + n, 20))) for n in range(2)]
    answer = send(phone, "/WS.E.LOW", *good, ("bad.jpg", b"no picture"))
    assert answer.status_code == 400 and "bad.jpg" in answer.text.replace("Bad.jpg", "bad.jpg")
    assert pictures(keeper) == []
    assert send(phone, "/WS.E.LOW", *good, ("p.pdf", paper())).status_code == 303
    assert {p["of"] for p in pictures(keeper)} == {"LOW"}
    assert phone.get("/picture/3").mimetype == "application/pdf"


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("a.jpg", b"", "empty"),
        ("a.jpg", b"<script>alert(1)</script>", "no picture"),
        ("a.svg", b"<svg onload='alert(1)'/>", "no picture"),
        ("a.jpg", jpeg() + zipped(), "at once"),
        ("../../a.png", jpeg(), "a.png is JPEG"),
    ],
)
def test_what_is_no_sound_picture_is_refused_in_words(
    phone: Phone, keeper: Keeper, name: str, content: bytes, said: str
) -> None:
    answer = send(phone, "/WS.A.EMB", (name, content))
    assert answer.status_code == 400
    assert said.casefold() in answer.text.casefold() and "<script>a" not in answer.text
    assert pictures(keeper) == [] and not pictures_of(keeper.path).exists()


def test_a_form_without_a_picture_says_so(phone: Phone) -> None:
    answer = send(phone, "/WS.A.EMB")
    assert answer.status_code == 400 and "Choose a picture first" in answer.text


def test_more_than_a_picture_can_be_is_refused_and_other_forms_stay_small(phone: Phone) -> None:
    answer = phone.client.post(
        "/picture",
        base_url=f"http://{HOST}",
        input_stream=io.BytesIO(b"it is not even begun"),
        environ_overrides={"CONTENT_LENGTH": str(MOST_UPLOAD + 1)},
        content_type="multipart/form-data; boundary=b",
        headers={"Origin": ORIGIN},
    )
    assert answer.status_code == 413 and "smaller" in answer.text
    form = phone.form("/WS.E.LOW", 'value="watered"')
    assert phone.send(form.pop(""), form | {"note": "x" * 70_000}).status_code == 413


def test_the_doors_are_those_of_every_post(phone: Phone, page: Page, keeper: Keeper) -> None:
    form = phone.form("/WS.A.EMB", CAMERA)
    photo = ("a.jpg", jpeg())
    assert send(phone, "", photo, fields=form, origin="http://elsewhere.test").status_code == 403
    assert send(phone, "", photo, fields=form | {"token": "0" * 32}).status_code == 403
    assert send(Phone(page), "", photo, fields=form).status_code == 401
    assert pictures(keeper) == []


def test_nobody_sees_a_picture_who_may_not_see_its_subject(
    phone: Phone, sitter: Phone, page: Page
) -> None:
    send(phone, "/WS.A.EMB", ("a.jpg", jpeg()))
    send(phone, "/WS.A.MOS", ("b.jpg", jpeg(picture(20, 30))))
    send(phone, "/WS.A.EMB", ("p.pdf", paper()))
    addresses = [f"/picture/{n}{q}" for n in (1, 2, 3, 99) for q in ("", "?small=1")]
    seen = {a: sitter.get(a).status_code for a in addresses}
    assert [a for a, status in seen.items() if status == 200] == addresses[:2]
    assert {phone.get(a).status_code for a in addresses[:6]} == {200}
    assert {Phone(page).get(a).status_code for a in addresses} == {401}


def test_a_sitter_takes_pictures_of_whom_the_keeper_allowed(
    sitter: Phone, phone: Phone, keeper: Keeper
) -> None:
    assert send(sitter, "/WS.A.EMB", ("a.jpg", jpeg())).status_code == 303
    form = phone.form("/WS.A.MOS", CAMERA) | {"token": sitter.form("/WS.A.EMB", CAMERA)["token"]}
    assert send(sitter, "", ("a.jpg", jpeg()), fields=form).status_code == 404
    assert [p["of"] for p in pictures(keeper)] == ["Ember (EMB)"]
    assert keeper.json("undo", "--list")["steps"][0]["by"] == "Ada"


def test_a_sitter_s_steps_show_whom_they_are_about(sitter: Phone, phone: Phone) -> None:
    send(phone, "/WS.E.LOW", ("a.jpg", jpeg()))
    assert 'class="face"' in sitter.get("/").text
    assert 'class="face"' not in phone.get("/").text


def test_the_screens_show_the_animals_that_live_there(phone: Phone) -> None:
    send(phone, "/WS.A.MOS", ("a.jpg", jpeg()))
    assert 'alt="picture 1, Moss, 2026-03-05"' in phone.get("/WS.E.HIGH").text
    assert 'src="/picture/1?small=1"' in phone.get("/report/MOS").text


def test_a_picture_whose_file_is_gone_is_told(phone: Phone, keeper: Keeper) -> None:
    send(phone, "/WS.A.EMB", ("a.jpg", jpeg()))
    for file in pictures_of(keeper.path).iterdir():
        file.unlink()
    answer = phone.get("/picture/1?small=1")
    assert answer.status_code == 503 and "missing" in answer.text


def test_a_preview_that_is_gone_is_made_again(phone: Phone, keeper: Keeper, clock: Clock) -> None:
    send(phone, "/WS.A.EMB", ("a.jpg", jpeg()))
    (small,) = pictures_of(keeper.path).glob("*.small.jpg")
    small.unlink()
    assert phone.get("/picture/1?small=1").status_code == 200 and small.is_file()
