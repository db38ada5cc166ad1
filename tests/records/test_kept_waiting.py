"""What lists keep of what waits: in when it begins to wait, out when it does not, in again where that is undone."""

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from followup.records import Store, eyes, kept_waiting, listed, unsaid, visits
from tests.conftest import NOW
from tests.records.rows import known, visit

DAY = date(2027, 3, 5)
Act = Callable[[Store, str], object]


def put_on_list(store: Store, id: str = "a", day: date = DAY, name: str = "Ada Ash") -> None:
    listed.add(store, NOW, id, "N-1", name, day, "right", {}, "list.csv", "nurse:n")


def on_list(store: Store) -> list[str]:
    assert kept_waiting.differences(store) == []
    return [one.id for one in listed.waiting(store)]


UNDONE: dict[str, tuple[Act, str]] = {
    "discharged": (lambda s, eye: eyes.add_operation(s, NOW, eye, "a"), "DELETE FROM operations WHERE id = 'a'"),
    "discharged under another id": (
        lambda s, eye: (eyes.add_operation(s, NOW, eye, "b"), s.execute("UPDATE operations SET id = 'a' WHERE id = 'b'")),
        "UPDATE operations SET id = 'c' WHERE id = 'a'",
    ),
    "put aside": (
        lambda s, _: listed.put_aside(s, NOW, "a", "nurse:n", "not operated"),
        "UPDATE listed_operations SET put_aside_at = NULL WHERE id = 'a'",
    ),
}


@pytest.mark.parametrize("how", UNDONE)
def test_a_listed_operation_waits_again_where_what_ended_that_is_undone(store: Store, eye_id: str, how: str) -> None:
    act, undo = UNDONE[how]
    put_on_list(store)
    assert on_list(store) == ["a"]
    act(store, eye_id)
    assert on_list(store) == []
    store.execute(undo)
    assert on_list(store) == ["a"]


def test_what_was_discharged_before_it_was_listed_does_not_wait(store: Store, eye_id: str) -> None:
    eyes.add_operation(store, NOW, eye_id, "a")
    put_on_list(store)
    assert on_list(store) == []


def test_a_listed_operation_that_is_gone_or_has_another_day_waits_no_more_or_then(store: Store) -> None:
    put_on_list(store)
    store.execute("UPDATE listed_operations SET operated_on = '2027-03-09'")
    assert on_list(store) == ["a"]
    assert [listed.count(store, day) for day in (DAY, date(2027, 3, 8), date(2027, 3, 9))] == [0, 0, 1]
    store.execute("DELETE FROM listed_operations")
    assert on_list(store) == []


def test_a_page_of_what_waits_goes_on_where_the_one_before_ended(store: Store) -> None:
    for n, (id, days, name) in enumerate((("d", 1, "A"), ("c", 0, "Z"), ("b", 0, "B"), ("a", 0, "B"))):
        put_on_list(store, id, DAY + timedelta(days=days), name)
        assert listed.count(store) == n + 1
    assert [[one.id for one in listed.waiting(store, 2, after)] for after in (0, 2, 4)] == [["a", "b"], ["c", "d"], []]
    assert listed.count(store, DAY) == 3


def work(store: Store, act: Callable[[], object]) -> int:
    """How many steps SQLite's machine takes (`sqlite3_progress_handler`, its documentation)."""
    steps = 0

    def step() -> None:
        nonlocal steps
        steps += 1

    store.db.conn.set_progress_handler(step, 1)
    act()
    store.db.conn.set_progress_handler(None, 0)
    return steps


def test_years_of_theatre_lists_are_not_read_for_what_waits(store: Store, eye_id: str) -> None:
    put_on_list(store)

    def read() -> None:
        assert (listed.count(store), len(listed.waiting(store, 80))) == (1, 1)

    before = work(store, read)
    with store.transaction():
        for n in range(300):
            put_on_list(store, f"over-{n}", DAY - timedelta(days=n))
            eyes.add_operation(store, NOW, eye_id, f"over-{n}")
    assert work(store, read) <= before * 2


def moved(store: Store, eye_id: str, day: date, to: date, minutes: int = 0) -> str:
    """A visit of one day moved to another, and its patient is to be told; returns the new version's id."""
    at = NOW + timedelta(minutes=minutes)
    id = visits.change(store, at, visit(store, eye_id, day, at=at), "nurse:n", "full", target=to, earliest=to, latest=to)
    visits.must_tell(store, at, id)
    return id


def to_tell(store: Store, today: date = DAY, most: int = -1, after: int = 0) -> list[str]:
    assert kept_waiting.differences(store) == []
    found = [change.changed.id for change in visits.to_tell(store, today, most, after)]
    if most == -1 and not after:
        assert visits.count_to_tell(store, today) == len(found)
    return found


def test_a_change_waits_to_be_told_until_it_is_or_is_changed_again(store: Store, eye_id: str) -> None:
    id = moved(store, eye_id, DAY, DAY + timedelta(days=2))
    assert to_tell(store) == [id]
    visits.told(store, NOW, id, "nurse:n")
    assert (to_tell(store), visits.untold_of_eye(store, eye_id)) == ([], frozenset())
    store.execute("UPDATE visits_to_tell SET told_at = NULL")
    assert (to_tell(store), visits.untold_of_eye(store, eye_id)) == ([id], {id})
    visits.change(store, NOW, known(visits.visit(store, id)), "nurse:n", "back", target=DAY)
    assert (to_tell(store), visits.untold_of_eye(store, eye_id)) == ([], frozenset())
    store.execute("DELETE FROM visits_to_tell")
    assert to_tell(store) == []


@pytest.mark.parametrize(("day", "to"), [(0, 2), (2, 0)])
def test_a_change_is_read_until_the_later_of_its_days_is_over_and_stays_with_its_eye(
    store: Store, eye_id: str, day: int, to: int
) -> None:
    id = moved(store, eye_id, DAY + timedelta(days=day), DAY + timedelta(days=to))
    assert [to_tell(store, DAY + timedelta(days=n)) for n in (-9, 0, 2, 3)] == [[id], [id], [id], []]
    assert visits.untold_of_eye(store, eye_id) == {id}


def test_the_soonest_change_comes_first_then_the_oldest_a_page_at_a_time(store: Store, eye_id: str) -> None:
    spans = [(5, 6, 0), (9, 4, 2), (4, 9, 1), (0, 30, 3)]
    ids = [moved(store, eye_id, *(DAY + timedelta(days=d) for d in days), minutes) for *days, minutes in spans]
    order = [ids[n] for n in (3, 2, 1, 0)]
    assert to_tell(store) == order
    assert [to_tell(store, DAY, 3, after) for after in (0, 3)] == [order[:3], order[3:]]


def test_changes_that_are_over_are_not_read_however_many_and_not_written_anew(store: Store, eye_id: str) -> None:
    today = DAY + timedelta(days=300)
    id = moved(store, eye_id, today, today + timedelta(days=2))

    def read() -> None:
        assert [change.changed.id for change in visits.to_tell(store, today)] == [id]
        assert visits.count_to_tell(store, today) == 1

    before = work(store, read)
    with store.transaction():
        for n in range(200):
            moved(store, eye_id, DAY + timedelta(days=n), DAY + timedelta(days=n + 1))
    assert work(store, read) <= before * 2
    store.execute("DELETE FROM unsaid")  # what each of them wrote when it was made
    assert unsaid.waiting(store, NOW, today, "one")[1] == {("change", id)}
    eyes.end(store, NOW, eye_id, "finished")
    store.execute("DELETE FROM unsaid")
    assert unsaid.waiting(store, NOW, today, "other")[1] == set()
    assert len(visits.untold_of_eye(store, eye_id)) == 201


def test_what_is_kept_wrong_is_named_and_made_anew(store: Store, eye_id: str) -> None:
    put_on_list(store)
    id = moved(store, eye_id, DAY, DAY + timedelta(days=2))
    store.execute("DELETE FROM listed_waiting")
    store.execute("UPDATE changes_untold SET until = '2099-01-01'")
    store.insert("theatre_to_come", {"task_id": "x"})
    assert kept_waiting.differences(store) == [
        "listed_waiting a is not what the facts say",
        f"changes_untold {id} is not what the facts say",
        "theatre_to_come x is not what the facts say",
    ]
    kept_waiting.rebuild(store)
    assert (on_list(store), to_tell(store)) == (["a"], [id])
