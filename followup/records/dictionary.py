"""What each table and column of an export means. What signs, opens or proves something is never exported."""

KEPT_BACK = (
    "settings", "tries", "sessions", "recovery_codes", "used_once", "push_subscriptions", "patient_terms", "_sqlite_migrations",
    "changed_patients", "state_made", "eye_states", "visit_states", "wish_states", "call_states", "call_people",
    "changed_results", "eye_results", "operation_results", "unsaid", "unsaid_made",
    "listed_waiting", "changes_untold", "theatre_to_come",
)  # fmt: skip
"""Tables of secrets, of counters, and of what is made from others."""
SECRET = ("password_hash", "totp_secret", "totp_last", "token_hash", "code_hash", "credential_id", "public_key")
PACKED = ("packed",)
"""Columns whose content leaves as that of others."""

COMMON = {
    "id": "what the row is known by",
    "at": "when it happened (UTC)",
    "eye_id": "the eye: eyes.id",
    "patient_id": "the patient: patients.id",
    "operation_id": "the operation: operations.id",
    "callback_id": "the callback: callbacks.id",
    "device_id": "the patient’s phone it came from: devices.id; empty for what the clinic entered",
    "body": "what was recorded, as JSON; names carry their units (iop_mmhg, bubble_percent, heights_metres)",
    "who": "role and id of whoever did it, for example nurse:<staff.id>; clock for what time alone did",
    "author": "role and id of whoever recorded it",
    "recorded_by": "role and id of whoever recorded it",
    "recorded_at": "when it was recorded (UTC)",
    "created_at": "when the row was made (UTC)",
    "received_at": "when the clinic received it (UTC)",
    "reason": "why, in words; empty where nobody gave one",
    "words": "what was said, in words",
    "joined_into": "the record of the same person that this one is read with; empty for one that stands",
    "ended_at": "when it ended (UTC); empty while it goes on",
    "worry": "what the worry is about; one open callback for an eye and a worry",
    "how_soon": "now (within the hour), today, this-week",
    "due_at": "by when somebody has to act (UTC)",
    "opened_at": "since when it is open (UTC)",
    "kind": "which kind",
    "name": "the name",
    "person": "patient:<id>, staff:<id>, device or contact:on-call",
}

TABLES: dict[str, tuple[str, dict[str, str]]] = {
    "patients": (
        "People who are followed",
        {
            "number": "hospital number",
            "born_on": "date of birth",
            "phone": "telephone as written",
            "language": "language of the patient’s pages",
            "reached_by": "own-phone, carer-phone or no-app; empty where it was never said",
            "reached_since": "since when (UTC); empty for from the beginning",
            "carer_phone": "telephone of a carer, as written",
        },
    ),
    "eyes": (
        "Both eyes of every patient",
        {
            "side": "right or left",
            "followed_since": "since when it is followed (UTC); empty if never",
            "end_reason": "why follow-up ended",
        },
    ),
    "operations": ("Operations of an eye", {}),
    "operation_records": (
        "What is recorded of an operation; the latest row of an operation counts, earlier ones were put right by it",
        {
            "eye": "right or left",
            "operated_at": "when (UTC)",
            "agent": "what was left in the eye: air, sf6, c2f6, c3f8, silicone-oil, heavy-silicone-oil, none",
            "surgeon": "who operated",
        },
    ),
    "visits": (
        "The book of visits; a change is a new row that replaces an earlier one",
        {
            "target": "planned day",
            "earliest": "first day it may be",
            "latest": "last day it may be",
            "replaces": "the row that this one replaces: visits.id",
            "withdrawn": "1 if this row takes the visit out of the book",
            "identity": "the id under which the visit first stood in the book",
            "starts": "appointment time, the clinic’s local time; empty where it keeps none",
            "why": "why the row took another’s place",
        },
    ),
    "visits_to_tell": (
        "Changes of visits that the patient has to be told of by somebody",
        {"visit_id": "visits.id", "made_at": "UTC", "told_at": "UTC; empty until then", "told_by": "role and id"},
    ),
    "closures": (
        "Days on which the clinic is closed, beside those of its settings; the latest row of a day counts",
        {"number": "in order", "day": "the day", "closed": "1 closed, 0 open again", "why": "why"},
    ),
    "events": (
        "All that was recorded at home or in the clinic; never changed, put right by a later row that points back",
        {
            "sequence": "the device’s own count",
            "offset_minutes": "minutes by which local time was ahead of UTC",
            "device_at": "when it happened by the device’s own clock (UTC)",
            "corrects": "the row that this one puts right or takes back: events.id",
        },
    ),
    "looks": ("Who opened an eye’s page", {}),
    "refused_events": (
        "What could not be taken, as it came",
        {"text": "what was sent", "eye_id": "the eye it named"},
    ),
    "warnings": (
        "Signs that a rule found",
        {
            "rule": "the rule of the protocol",
            "raised_at": "to which time the sign belongs (UTC)",
            "severity": "greater is worse, within one rule",
            "values_json": "what the rule saw, as JSON with units in the names",
            "threshold": "what it compared with",
            "source": "where the threshold comes from",
            "rulebook": "version of the rulebook",
        },
    ),
    "warning_grounds": (
        "Whether a warning still has its grounds after something was put right; the latest row counts",
        {
            "number": "in order",
            "warning_id": "warnings.id",
            "unfounded": "1 if nothing is left of its grounds",
            "event_id": "what put it right: events.id",
            "note_id": "what put it right: operation_records.id",
        },
    ),
    "callbacks": (
        "Worries that somebody has to settle with the patient",
        {
            "state": "waiting, claimed or settled",
            "claimed_by": "staff.id",
            "claimed_at": "UTC",
            "settled_at": "UTC",
            "settled_by": "staff.id",
            "outcome": "how it was settled",
            "level": "where it stands: 0 nurse, 1 surgeon, 2 on-call contact",
            "moved_up": "how often it moved up in all",
            "next_try_at": "when to call again (UTC)",
        },
    ),
    "callback_steps": ("What was done about a callback", {"step": "what", "detail": "more of it, as JSON"}),
    "tasks": (
        "What was decided and is to be done",
        {
            "visit_id": "the visit it is about: visits.id",
            "owner": "staff.id",
            "made_by": "staff.id",
            "made_at": "UTC",
            "told_at": "when the patient was told (UTC)",
            "done_at": "UTC",
            "done_by": "staff.id",
            "done_words": "how it was done",
            "given_up": "1 if it will not be done",
            "decision": "what was decided for several callbacks at once has one id",
            "theatre_on": "the day of theatre, where it is known",
            "theatre_list": "on which list, and who confirmed it",
        },
    ),
    "listed_operations": (
        "Operations of a theatre list; one waits until an operation of its id is recorded, or it is put aside",
        {
            "number": "hospital number as listed",
            "operated_on": "day of surgery as listed",
            "eye": "right or left",
            "source": "name of the file it came in, and its line",
            "listed_by": "role and id",
            "listed_at": "UTC",
            "put_aside_at": "UTC; empty while it was not",
            "put_aside_by": "role and id",
            "put_aside_why": "why, in words",
        },
    ),
    "consents": (
        "What patients consented to; the latest row of a patient and a thing counts",
        {
            "what": "what it is about: phone (the phone pages)",
            "given": "1 consent, 0 taken back",
            "said_by": "patient, or who spoke for the patient",
        },
    ),
    "follow_ups": ("Beginnings and ends of follow-up", {"what": "begun, ended or resumed"}),
    "devices": (
        "Patients’ phones",
        {
            "used_by": "patient or carer",
            "carer_name": "what the patient calls the carer whom they invited",
            "enrolled_at": "UTC",
            "heard_at": "when it last sent something (UTC)",
            "revoked_at": "when it was locked out (UTC)",
            "revoked_by": "role and id",
        },
    ),
    "enrolments": (
        "Codes that made a phone the patient’s",
        {
            "created_by": "role and id",
            "expires_at": "UTC",
            "used_at": "UTC",
            "carer_name": "what the patient calls the carer whom they invited; empty where the clinic made the code",
            "wrong_tries": "wrong years of birth that were tried with it",
        },
    ),
    "messages": (
        "Messages that were sent or are to be sent",
        {
            "key": "what makes it one message",
            "about": "what it is about",
            "made_at": "UTC",
            "useless_after": "after this it is not sent any more (UTC)",
            "state": "waiting, sending, sent or dropped",
            "tries": "how often it was tried",
            "next_try_at": "UTC",
            "taken_at": "UTC",
            "detail": "how it fared",
        },
    ),
    "message_choices": (
        "How people want to be reached",
        {
            "email": "address, empty for none",
            "language": "of messages",
            "quiet_from": "local time",
            "quiet_to": "local time",
            "unwanted": "kinds not wanted, as JSON",
            "chosen_at": "UTC",
        },
    ),
    "protocol_texts": (
        "The clinic’s own protocols",
        {
            "part": "rulebook, reviews or postures",
            "text": "TOML",
            "fingerprint": "hash of what it says",
            "saved_by": "role and id",
        }
        | {"saved_at": "UTC"},
    ),
    "signatures": (
        "Surgeons’ signatures under protocols",
        {"part": "which", "fingerprint": "hash of what was signed", "signed_by": "staff.id", "signed_at": "UTC"},
    ),
    "staff": (
        "Members of staff",
        {"email": "used to sign in", "role": "nurse, surgeon or administrator", "left_at": "when the account ended (UTC)"}
        | {"passkey_asked": "1 where a passkey is asked for after the password; empty where not"}
        | {"directory_subject": "how the clinic’s own directory knows them; empty where nobody said"},
    ),
    "passkeys": (
        "Passkeys of staff",
        {
            "staff_id": "whose: staff.id",
            "sign_count": "how often it was used, as it says itself; 0 where it does not count",
            "used_at": "when it was last used (UTC)",
            "removed_at": "when it was removed (UTC); empty while it holds",
        },
    ),
    "audit": (
        "Who did what, in a chain",
        {
            "number": "in order",
            "action": "what",
            "subject": "the id of what it is about",
            "detail": "more of it, as JSON",
            "facts": "table, key and hash of each row that it records, as JSON",
            "previous": "hash of the entry before",
            "hash": "SHA-256 of this entry",
        },
    ),
    "pages_opened": ("Which pages staff opened", {"page": "which", "about": "the id of what it shows"}),
    "faults": (
        "What went wrong and still does",
        {
            "what": "which kind",
            "about": "the record, person or job",
            "first_at": "UTC",
            "last_at": "UTC",
            "times": "how often",
        },
    ),
    "job_runs": ("The clock’s jobs", {"job": "which", "started_at": "UTC", "result": "how it ended"}),
}


def meaning(table: str, column: str) -> str:
    """What a column means. Raises KeyError for one that nobody has described."""
    own = TABLES[table][1]
    return own[column] if column in own else COMMON[column]
