"""What the records hold, as frozen, typed values. A row is parsed once, on its way out; above here there are no rows."""

from followup.records.values._callbacks import Callback, Step, Taken, Task, Warning
from followup.records.values._entries import Event, Refused, Said, Unreadable, saying
from followup.records.values._eyes import (
    SIDES,
    CallState,
    Change,
    Closure,
    Eye,
    EyeState,
    FollowUp,
    ListedOperation,
    Note,
    Visit,
    VisitState,
    WishState,
)
from followup.records.values._messages import Choice, Fault, Message, Run, Signature, Subscription
from followup.records.values._people import AuditEntry, Consent, Device, Enrolment, PageOpened, Patient, Session, Staff
from followup.records.values._results import Contribution, ListedResult, OperationResult, Sight
from followup.records.values._rows import Value, as_object, made

__all__ = [
    "SIDES",
    "AuditEntry",
    "CallState",
    "Callback",
    "Change",
    "Choice",
    "Closure",
    "Consent",
    "Contribution",
    "Device",
    "Enrolment",
    "Event",
    "Eye",
    "EyeState",
    "Fault",
    "FollowUp",
    "ListedOperation",
    "ListedResult",
    "Message",
    "Note",
    "OperationResult",
    "PageOpened",
    "Patient",
    "Refused",
    "Run",
    "Said",
    "Session",
    "Sight",
    "Signature",
    "Staff",
    "Step",
    "Subscription",
    "Taken",
    "Task",
    "Unreadable",
    "Value",
    "Visit",
    "VisitState",
    "Warning",
    "WishState",
    "as_object",
    "made",
    "saying",
]
