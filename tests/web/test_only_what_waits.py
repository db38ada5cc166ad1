"""Lists of what waits are bounded on the page that stands open, lead to all of it, and what is over stays with its eye."""

from datetime import date, timedelta

from flask.testing import FlaskClient

from followup.records import Store, listed, visits
from tests.conftest import NOW
from tests.pages import Element, parsed
from tests.records.rows import visit

TODAY = NOW.date()
YESTERDAY = TODAY - timedelta(days=1)
NOT_TOLD = "nobody is on record as having told the patient"


def moved(store: Store, eye_id: str, name: str, day: date, to: date) -> str:
    """A visit of one day alone moved to another; nobody has told its patient."""
    v = visit(store, eye_id, day, name)
    id = visits.change(store, NOW, v, "nurse:n", "full", target=to, earliest=min(day, to), latest=max(day, to))
    visits.must_tell(store, NOW, id)
    return id


def page_at(client: FlaskClient, address: str) -> Element:
    return parsed(client.get(address).text)


def to_be_told(page: Element) -> list[str]:
    """The changes that the page shows, by the buttons that say that their patients know."""
    actions = [form.get("action").split("/") for form in page.all("form")]
    return [action[-2] for action in actions if action[-1] == "told"]


def lead_to(page: Element, address: str) -> list[str]:
    return [link.words for link in page.all("a", href=address)]


def test_of_many_to_tell_today_and_the_handover_show_the_first_and_lead_to_all(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    with store.transaction():
        days = [(TODAY + timedelta(days=n), TODAY + timedelta(days=n + 2)) for n in range(83)]
        ids = [moved(store, eye_id, f"check {n}", *both) for n, both in enumerate(days)]
    today = page_at(as_nurse, "/clinic/").one(id="to-tell")
    assert today.one("summary").words == "83 patients to be told of another day"
    assert (to_be_told(today), lead_to(today, "/clinic/to-tell")) == (ids[:40], ["43 more"])
    part = page_at(as_nurse, "/clinic/handover").one("section", aria_labelledby="to-tell")
    assert part.one("h2").words == "To be told of another day 83"
    assert (len(part.all("li")), lead_to(part, "/clinic/to-tell")) == (41, ["43 more"])
    pages = [page_at(as_nurse, f"/clinic/to-tell?page={n}") for n in (1, 2, 3)]
    assert [to_be_told(page) for page in pages] == [ids[:80], ids[80:], ids[80:]]
    answer = as_nurse.post(f"/clinic/visits/{ids[0]}/told", data={"back": "to-tell"}, follow_redirects=True)
    assert answer.request.path == "/clinic/to-tell"
    assert parsed(answer.text).one("h1").words == "To be told of another day 82"


def test_few_to_tell_lead_nowhere_else(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    id = moved(store, eye_id, "check", TODAY, TODAY + timedelta(days=2))
    today = page_at(as_nurse, "/clinic/").one(id="to-tell")
    assert today.one("summary").words == "1 patient to be told of another day"
    assert (to_be_told(today), lead_to(today, "/clinic/to-tell")) == ([id], [])
    as_nurse.post(f"/clinic/visits/{id}/told")
    assert "Nobody is to be told." in page_at(as_nurse, "/clinic/to-tell").words


def test_what_is_over_and_nobody_was_told_of_stands_with_its_eye(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    patient = store.rows("SELECT patient_id FROM eyes WHERE id = :id", {"id": eye_id})[0]["patient_id"]
    addresses = [f"/clinic/eyes/{eye_id}", f"/clinic/patients/{patient}", f"/clinic/eyes/{eye_id}/plan"]

    def said() -> list[int]:
        return [page_at(as_nurse, address).words.count(NOT_TOLD) for address in addresses]

    assert said() == [0, 0, 0]
    id = moved(store, eye_id, "check", YESTERDAY, YESTERDAY)
    gone = visits.change(store, NOW, visit(store, eye_id, YESTERDAY, "other"), "nurse:n", "no need", withdrawn=True)
    visits.must_tell(store, NOW, gone)
    assert page_at(as_nurse, "/clinic/").all(id="to-tell") == []
    assert said() == [2, 2, 2]
    for version in (id, gone):
        as_nurse.post(f"/clinic/visits/{version}/told")
    assert said() == [0, 0, 0]


def test_a_long_theatre_list_comes_a_page_at_a_time_and_today_counts_what_is_due(
    as_nurse: FlaskClient, store: Store
) -> None:
    with store.transaction():
        for n in range(83):
            day = TODAY + timedelta(days=n - 81)
            listed.add(store, NOW, f"l-{n:02}", f"N-{n}", f"Ada {n}", day, "right", {}, "list.csv", "nurse:n")
    words = page_at(as_nurse, "/clinic/").one(id="listed").words
    assert words.startswith("82 operations of the theatre list wait for the discharge.")
    pages = [page_at(as_nurse, f"/clinic/theatre-list?page={n}") for n in (1, 2)]
    found = [[line.get("id").removeprefix("listed-") for line in page.all("li", class_="row")] for page in pages]
    assert found == [[f"l-{n:02}" for n in range(80)], ["l-80", "l-81", "l-82"]]
    assert all("Waiting for the discharge 83" in [part.words for part in page.all("h2")] for page in pages)
