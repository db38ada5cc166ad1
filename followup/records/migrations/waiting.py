"""What still waits, of lists that keep all that ever stood on them: so that a page reads that alone."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m042_only_what_waits(db: Database) -> None:
    """None of this is a fact: triggers keep it, in the transaction that changes what it depends on.

    `listed_waiting`: operations of a theatre list that nobody put aside and that have no operation of their id.
    `changes_untold`: changes of visits that stand and that nobody was told of, with the sooner and the later of the two
    days. `theatre_to_come`: tasks for theatre that were not given up, of eyes whose follow-up did not end and that were not
    operated since, under any of the patient’s joined records.
    """

    def in_time(column: str) -> str:
        return f"({column} GLOB '[12][0-9][0-9][0-9]-*' AND {column} BETWEEN '1900' AND '2201')"

    listed = """
        INSERT INTO listed_waiting SELECT l.id, l.operated_on FROM listed_operations l
        WHERE {which} AND l.put_aside_at IS NULL AND NOT EXISTS (SELECT 1 FROM operations o WHERE o.id = l.id);
    """
    untold = """
        INSERT INTO changes_untold SELECT v.id, min(v.target, b.target), max(v.target, b.target)
        FROM visits_to_tell t JOIN visits v ON v.id = t.visit_id JOIN visits b ON b.id = v.replaces
        WHERE {which} AND t.told_at IS NULL AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id);
    """
    theatre = f"""
        INSERT INTO theatre_to_come SELECT t.id FROM tasks t JOIN eyes y ON y.id = t.eye_id
        WHERE t.kind = 'theatre' AND {{which}} AND NOT t.given_up AND y.ended_at IS NULL AND NOT EXISTS (
            SELECT 1 FROM operations o JOIN operation_records n ON n.operation_id = o.id WHERE o.created_at > t.made_at
            AND o.eye_id IN (SELECT j.id FROM eyes j WHERE j.id = t.eye_id OR j.joined_into = t.eye_id OR j.id = y.joined_into)
            AND {in_time("n.operated_at")} AND n.operated_at >= substr(t.made_at, 1, 10)
            AND NOT EXISTS (SELECT 1 FROM operation_records later WHERE later.operation_id = o.id
                AND (later.recorded_at, later.id) > (n.recorded_at, n.id)));
    """
    db.executescript(
        f"""
        CREATE TABLE listed_waiting (id TEXT PRIMARY KEY, operated_on TEXT NOT NULL) STRICT, WITHOUT ROWID;
        CREATE INDEX listed_waiting_by_day ON listed_waiting (operated_on);
        CREATE TABLE changes_untold (
            visit_id TEXT PRIMARY KEY, soonest TEXT NOT NULL, until TEXT NOT NULL
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX changes_untold_until ON changes_untold (until);
        CREATE TABLE theatre_to_come (task_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
        DROP INDEX listed_by_day;
        DROP INDEX visits_untold;
        DROP INDEX tasks_for_theatre;
        CREATE INDEX theatre_of_eye ON tasks (eye_id) WHERE kind = 'theatre';
        {listed.format(which="1")}
        {untold.format(which="1")}
        {theatre.format(which="1")}
        """
    )

    def whenever(table: str, name: str, verb: str, written: str) -> None:
        first, _, columns = verb.partition(" ")
        what = f"AFTER {first} {columns} ON {table}"
        db.execute(f"CREATE TRIGGER {table}_{name}_{first.lower()} {what} BEGIN {written} END")

    anew = {
        "listed": "DELETE FROM listed_waiting WHERE id = {row}.id;" + listed.format(which="l.id = {row}.id"),
        "untold": "DELETE FROM changes_untold WHERE visit_id = {row}.visit_id;"
        + untold.format(which="v.id = {row}.visit_id"),
        "theatre": "DELETE FROM theatre_to_come WHERE task_id = {row}.id;" + theatre.format(which="t.id = {row}.id"),
    }
    for table, name, columns in (
        ("listed_operations", "listed", "id, operated_on, put_aside_at"),
        ("operations", "listed", "id"),
        ("visits_to_tell", "untold", "visit_id, told_at"),
        ("tasks", "theatre", "id, eye_id, kind, made_at, given_up"),
    ):
        whenever(table, name, "INSERT", anew[name].format(row="NEW"))
        whenever(table, name, f"UPDATE OF {columns}", "".join(anew[name].format(row=row) for row in ("OLD", "NEW")))
        whenever(table, name, "DELETE", anew[name].format(row="OLD"))
    whenever("visits", "untold", "INSERT", "DELETE FROM changes_untold WHERE visit_id = NEW.replaces;")
    around = """t.eye_id IN (SELECT j.id FROM eyes j WHERE j.id = {eye} OR j.joined_into = {eye}
        OR j.id = (SELECT k.joined_into FROM eyes k WHERE k.id = {eye}))"""
    of_eye = f"""
        DELETE FROM theatre_to_come WHERE task_id IN (SELECT t.id FROM tasks t WHERE t.kind = 'theatre' AND {around});
        {theatre.format(which=around)}
    """
    noted = "(SELECT o.eye_id FROM operations o WHERE o.id = NEW.operation_id)"
    whenever("operation_records", "theatre", "INSERT", of_eye.format(eye=noted))
    for table, columns, rows in (
        ("operations", "eye_id", ("OLD.eye_id", "NEW.eye_id")),
        ("eyes", "ended_at, joined_into", ("OLD.joined_into", "NEW.id")),
    ):
        whenever(table, "theatre", f"UPDATE OF {columns}", "".join(of_eye.format(eye=eye) for eye in rows))
