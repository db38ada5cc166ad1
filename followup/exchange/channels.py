"""The ways a message leaves: e-mail by SMTP and web push (RFC 8030, 8291, 8292), behind one interface."""

import json
import smtplib
import ssl
from collections.abc import Mapping
from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import formatdate, make_msgid
from typing import Any, Protocol

import requests
from py_vapid import Vapid02
from pywebpush import WebPushException, webpush

from followup.config import Messages
from followup.exchange.letters import Letter, footer

TIMEOUT_SECONDS = 15
PUSH_KEPT_SECONDS = 12 * 3600
GONE = (404, 410)


class NotDelivered(Exception):
    """The message did not leave; `gone` means that this address never will take one again."""

    def __init__(self, why: str, *, gone: bool = False) -> None:
        super().__init__(why)
        self.gone = gone


class Channel(Protocol):
    """One way to one address."""

    def send(self, letter: Letter, language: str) -> None:
        """Hand the letter over. Raises `NotDelivered`."""


class Email:
    """Plain text to one e-mail address."""

    def __init__(self, settings: Messages, to: str, sender_name: str, page_address: str) -> None:
        self._settings, self._to, self._sender_name, self._page = settings, to, sender_name, page_address

    def send(self, letter: Letter, language: str) -> None:
        made = EmailMessage()
        made["Subject"] = letter.title
        made["From"] = Address(self._sender_name, addr_spec=self._settings.sender)
        made["To"] = self._to
        made["Date"] = formatdate()
        made["Message-ID"] = make_msgid(domain=self._settings.sender.rpartition("@")[2])
        made["Content-Language"] = language
        made["Auto-Submitted"] = "auto-generated"  # RFC 3834: no out-of-office answers
        made.set_content(f"{letter.words}\n\n{self._page}{letter.path}\n\n{footer(language)}\n")
        try:
            with self._connection() as smtp:
                if self._settings.smtp_user:
                    smtp.login(self._settings.smtp_user, self._settings.smtp_password)
                smtp.send_message(made)
        except (smtplib.SMTPException, OSError) as error:
            raise NotDelivered(f"e-mail: {error}") from error

    def _connection(self) -> smtplib.SMTP:
        s = self._settings
        if s.smtp_security == "tls":
            return smtplib.SMTP_SSL(s.smtp_host, s.smtp_port, timeout=TIMEOUT_SECONDS, context=ssl.create_default_context())
        smtp = smtplib.SMTP(s.smtp_host, s.smtp_port, timeout=TIMEOUT_SECONDS)
        if s.smtp_security == "starttls":
            smtp.starttls(context=ssl.create_default_context())
        return smtp


class Push:
    """Web push to one browser, encrypted for it."""

    def __init__(self, subscription: Mapping[str, Any], private_key: str, contact: str) -> None:
        self._endpoint = subscription["endpoint"]
        self._keys = {"p256dh": subscription["p256dh"], "auth": subscription["auth"]}
        self._private_key, self._contact = private_key, contact

    def send(self, letter: Letter, language: str) -> None:
        said = json.dumps({"title": letter.title, "words": letter.words, "path": letter.path, "language": language})
        try:
            webpush(
                {"endpoint": self._endpoint, "keys": self._keys},
                said,
                vapid_private_key=Vapid02.from_pem(self._private_key.encode()),
                vapid_claims={"sub": self._contact},
                ttl=PUSH_KEPT_SECONDS,
                timeout=TIMEOUT_SECONDS,
                headers={"Urgency": "high"},
            )
        except WebPushException as error:
            raise NotDelivered(f"push: {error.message.splitlines()[0]}", gone=error.status_code in GONE) from error
        except (requests.RequestException, ValueError) as error:
            raise NotDelivered(f"push: {error}") from error
