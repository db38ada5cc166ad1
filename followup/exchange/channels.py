"""The ways a message leaves: e-mail by SMTP and web push (RFC 8030, 8291, 8292), behind one interface."""

import json
import smtplib
import ssl
from email.errors import HeaderParseError
from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import formatdate, make_msgid

import requests
from py_vapid import Vapid02, VapidException
from pywebpush import WebPushException, webpush

from followup.config import Messages
from followup.errors import FollowupError
from followup.exchange import outside
from followup.exchange.letters import Letter, footer
from followup.records.values import Subscription

TIMEOUT_SECONDS = 15
PUSH_TIMEOUT_SECONDS = 10
PUSH_KEPT_SECONDS = 12 * 3600
GONE = (404, 410)


class NotDelivered(FollowupError):
    """The message did not leave. The words name no address: they are kept and shown.

    `gone` means that this address never will take one again, `away` that the server itself could not be reached.
    """

    def __init__(self, why: str, *, gone: bool = False, away: bool = False) -> None:
        super().__init__(why)
        self.gone, self.away = gone, away


class Email:
    """Plain text to one e-mail address."""

    def __init__(self, settings: Messages, to: str, sender_name: str, page_address: str) -> None:
        self._settings, self._to, self._sender_name, self._page = settings, to, sender_name, page_address

    def send(self, letter: Letter, language: str) -> None:
        """Hand the letter over. Raises `NotDelivered`."""
        made = self._written(letter, language)
        try:
            connection = self._connection()
        except (smtplib.SMTPException, OSError) as error:
            raise NotDelivered(f"e-mail: {error}", away=True) from error
        try:
            with connection as smtp:
                if self._settings.smtp_user:
                    smtp.login(self._settings.smtp_user, self._settings.smtp_password)
                smtp.send_message(made)
        except (smtplib.SMTPException, OSError, ValueError) as error:
            raise NotDelivered(f"e-mail: {str(error).replace(self._to, '…')}") from error

    def _written(self, letter: Letter, language: str) -> EmailMessage:
        made = EmailMessage()
        made["Subject"] = letter.title
        made["From"] = Address(self._sender_name, addr_spec=self._settings.sender)
        try:
            made["To"] = Address(addr_spec=self._to)
        except (ValueError, IndexError, HeaderParseError) as error:  # how the library says that it cannot read one
            raise NotDelivered("e-mail: the address is not one that mail can be sent to") from error
        made["Date"] = formatdate()
        made["Message-ID"] = make_msgid(domain=self._settings.sender.rpartition("@")[2])
        made["Content-Language"] = language
        made["Auto-Submitted"] = "auto-generated"  # RFC 3834: no out-of-office answers
        made.set_content(f"{letter.words}\n\n{self._page}{letter.path}\n\n{footer(language)}\n")
        return made

    def _connection(self) -> smtplib.SMTP:
        s = self._settings
        if s.smtp_security == "tls":
            return smtplib.SMTP_SSL(s.smtp_host, s.smtp_port, timeout=TIMEOUT_SECONDS, context=ssl.create_default_context())
        smtp = smtplib.SMTP(s.smtp_host, s.smtp_port, timeout=TIMEOUT_SECONDS)
        if s.smtp_security == "starttls":
            smtp.starttls(context=ssl.create_default_context())
        return smtp


class Push:
    """Web push to one browser, encrypted for it; to public addresses only, unless `anywhere` (a demo without TLS)."""

    def __init__(self, subscription: Subscription, private_key: str, contact: str, *, anywhere: bool = False) -> None:
        self._anywhere = anywhere
        self._endpoint = subscription.endpoint
        self._keys = {"p256dh": subscription.p256dh, "auth": subscription.auth}
        self._contact = contact
        self._signer = Vapid02.from_pem(private_key.encode())
        self._signer.conf = {"no-strict": True}  # its own check of the contact refuses ports, which RFC 8292 does not

    def send(self, letter: Letter, language: str) -> None:
        """Hand the letter over. Raises `NotDelivered`."""
        said = json.dumps({"title": letter.title, "words": letter.words, "path": letter.path, "language": language})
        if not self._anywhere and (fault := outside.leads_inside(self._endpoint)):
            raise NotDelivered(f"push: {fault}")
        try:
            webpush(
                {"endpoint": self._endpoint, "keys": self._keys},
                said,
                vapid_private_key=self._signer,
                vapid_claims={"sub": self._contact},
                ttl=PUSH_KEPT_SECONDS,
                timeout=PUSH_TIMEOUT_SECONDS,
                headers={"Urgency": "high"},
                requests_session=outside.straight() if self._anywhere else outside.session(),
            )
        except WebPushException as error:
            status = f"the push service answered {error.status_code}" if error.status_code else "it could not be encrypted"
            raise NotDelivered(f"push: {status}", gone=error.status_code in GONE) from error
        except (requests.RequestException, VapidException, ValueError) as error:
            raise NotDelivered(f"push: the push service could not be reached ({type(error).__name__})") from error
