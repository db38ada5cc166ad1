"""What the clock must look at before it knows that nobody has to hear of it: so that each minute reads that alone."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m039_unsaid(db: Database) -> None:
    """None of this is a fact. `what` is `call` for a callback, `change` for a visit's version that its patient is to be told of.

    Whatever a message depends on writes what it is about: with a new number each time, so that whoever has looked takes
    away only what was there. `unsaid_made`: when all was written anew, and for which settings.
    """
    db.executescript(
        """
        CREATE TABLE unsaid (
            number INTEGER PRIMARY KEY AUTOINCREMENT, what TEXT NOT NULL CHECK (what IN ('call', 'change')), id TEXT NOT NULL
        ) STRICT;
        CREATE TABLE unsaid_made (only INTEGER PRIMARY KEY CHECK (only = 1), at TEXT NOT NULL, how TEXT NOT NULL) STRICT;
        """
    )
    to_tell = "({c}.how_soon = 'now' OR {c}.level > 0 OR {c}.worry = 'silence') AND {c}.state != 'settled'"
    a_call = f"INSERT INTO unsaid (what, id) SELECT 'call', NEW.id WHERE {to_tell.format(c='NEW')};"
    its_call = f"""
        INSERT INTO unsaid (what, id) SELECT 'call', c.id FROM callbacks c
        WHERE c.id = NEW.callback_id AND {to_tell.format(c="c")};
    """
    a_change = "INSERT INTO unsaid (what, id) VALUES ('change', NEW.visit_id);"
    every_call = """
        INSERT INTO unsaid (what, id) SELECT 'call', id FROM callbacks WHERE state != 'settled' AND how_soon = 'now' AND level = 0;
        INSERT INTO unsaid (what, id) SELECT 'call', id FROM callbacks WHERE state != 'settled' AND level > 0;
    """
    of_patient = """
        INSERT INTO unsaid (what, id) SELECT 'call', c.id FROM eyes e JOIN callbacks c ON c.eye_id = e.id
            WHERE e.patient_id IN (SELECT p.id FROM patients p WHERE p.id = {id} OR p.joined_into = {id})
            AND c.state != 'settled' AND c.worry = 'silence';
        INSERT INTO unsaid (what, id) SELECT 'change', t.visit_id
            FROM eyes e JOIN visits v ON v.eye_id = e.id JOIN visits_to_tell t ON t.visit_id = v.id
            WHERE e.patient_id IN (SELECT p.id FROM patients p WHERE p.id = {id} OR p.joined_into = {id}) AND t.told_at IS NULL;
    """
    whenever = [
        ("callbacks", "INSERT", "", a_call),
        ("callbacks", "UPDATE", "", a_call),
        ("tasks", "INSERT", "", its_call),
        ("tasks", "UPDATE", "", its_call),
        ("visits_to_tell", "INSERT", "", a_change),
        ("staff", "INSERT", "", every_call),
        ("staff", "UPDATE", " OF role, email, left_at", every_call),
        ("eyes", "UPDATE", "", of_patient.format(id="NEW.patient_id")),
        ("patients", "UPDATE", " OF joined_into", of_patient.format(id="coalesce(NEW.joined_into, NEW.id)")),
        ("devices", "UPDATE", " OF revoked_at", of_patient.format(id="NEW.patient_id")),
    ]
    for table in ("message_choices", "push_subscriptions"):
        for verb in ("INSERT", "UPDATE"):
            whenever.append((f"{table} patient", verb, "", of_patient.format(id="substr(NEW.person, 9)")))
            whenever.append((f"{table} staff", verb, "", every_call))
    meant = {"": "", "patient": "WHEN NEW.person GLOB 'patient:*'", "staff": "WHEN NEW.person NOT GLOB 'patient:*'"}
    # A browser says on every visit that it still takes pushes.
    again = " AND (OLD.person, OLD.device_id, OLD.ended_at) IS NOT (NEW.person, NEW.device_id, NEW.ended_at)"
    for where, verb, columns, written in whenever:
        table, _, whose = where.partition(" ")
        when = meant[whose] + (again if (table, verb) == ("push_subscriptions", "UPDATE") else "")
        name = f"{where.replace(' ', '_')}_unsaid_{verb.lower()}"
        db.execute(f"CREATE TRIGGER {name} AFTER {verb}{columns} ON {table} {when} BEGIN {written} END")
