"""Passkeys: the standard's own vectors, and each thing that must be right, wrong once."""

import dataclasses
import json
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from webauthn.helpers import bytes_to_base64url as b64

from followup.care import accounts, passkeys, second_factor, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound, Refused
from followup.care.passkeys import Answer, Asked, Site
from followup.care.signing_in import Caller
from followup.records import Store, people
from followup.records import passkeys as kept
from tests.authenticator import PRESENT, Authenticator
from tests.conftest import NOW, PASSWORD, ZONE

HERE = Site("eyes.example", "https://eyes.example", "Test Eye Clinic")
STANDARD = Site("example.org", "https://example.org", "example")
CALLER = Caller("192.0.2.1")


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


def registered(desk: Desk, device: Authenticator | None = None, name: str = "tablet") -> Authenticator:
    device = device or Authenticator()
    asked = passkeys.to_register(desk, HERE, "a session", name, PASSWORD)
    passkeys.register(desk, HERE, Answer(asked.token, device.make(asked.options), "a session"), name)
    return device


def asked_alone(desk: Desk, holder: str = "a browser") -> Asked:
    return passkeys.to_sign_in(desk.store, desk.now, HERE, holder)


def signed_in(
    desk: Desk, device: Authenticator, asked: Asked | None = None, holder: str = "a browser", **span: int
) -> Actor:
    asked = asked or asked_alone(desk)
    answer = Answer(asked.token, device.sign(asked.options), holder)
    return signing_in.by_passkey(desk.store, desk.now + timedelta(**span), HERE, answer, CALLER)[0]


# W3C, Web Authentication Level 3, section 16 (test vectors): RP ID example.org, origin https://example.org.
# The number of the section of each is that of the Candidate Recommendation; its name is what the values are derived from.
NONE_ES256 = {  # nobody was verified
    "challenge": "00c30fb78531c464d2b6771dab8d7b603c01162f2fa486bea70f283ae556e130",
    "id": "f91f391db4c9b2fde0ea70189cba3fb63f579ba6122b33ad94ff3ec330084be4",
    "client": (
        "7b2274797065223a22776562617574686e2e637265617465222c226368616c6c656e6765223a22414d4d507434557878475453746e63647134313759"
        "447742466938767049612d7077386f4f755657345441222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73"
        "734f726967696e223a66616c73652c22657874726144617461223a22636c69656e74446174614a534f4e206d617920626520657874656e6465642077"
        "697468206164646974696f6e616c206669656c647320696e20746865206675747572652c207375636820617320746869733a20426b5165446a646354"
        "427258426941774a544c453551227d"
    ),
    "attestation": (
        "a363666d74646e6f6e656761747453746d74a068617574684461746158a4bfabc37432958b063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2"
        "e4b559000000008446ccb9ab1db374750b2367ff6f3a1f0020f91f391db4c9b2fde0ea70189cba3fb63f579ba6122b33ad94ff3ec330084be4a50102"
        "03262001215820afefa16f97ca9b2d23eb86ccb64098d20db90856062eb249c33a9b672f26df61225820930a56b87a2fca66334b03458abf879717c1"
        "2cc68ed73290af2e2664796b9220"
    ),
}
PACKED_SELF_ES256 = {  # verified
    "challenge": "7869c2b772d4b58eba9378cf8f29e26cf935aa77df0da89fa99c0bdc0a76f7e5",
    "id": "455ef34e2043a87db3d4afeb39bbcb6cc32df9347c789a865ecdca129cbef58c",
    "client": (
        "7b2274797065223a22776562617574686e2e637265617465222c226368616c6c656e6765223a2265476e4374334c55745936366b336a506a796e6962"
        "506b31716e666644616966715a774c33417032392d55222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73"
        "734f726967696e223a66616c73652c22657874726144617461223a22636c69656e74446174614a534f4e206d617920626520657874656e6465642077"
        "697468206164646974696f6e616c206669656c647320696e20746865206675747572652c207375636820617320746869733a205539685458764b4532"
        "55526b4d6e625f307859485667227d"
    ),
    "attestation": (
        "a363666d74667061636b65646761747453746d74a263616c672663736967584630440220067a20754ab925005dbf378097c92120031581c73228d1fb"
        "4f5b881bcd7da98302207fc7b147558c7c0eba3af18bd9d121fa3d3a26d17fe3f220272178f473b6006d68617574684461746158a4bfabc37432958b"
        "063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2e4b55d00000000df850e09db6afbdfab51697791506cfc0020455ef34e2043a87db3d4afeb"
        "39bbcb6cc32df9347c789a865ecdca129cbef58ca5010203262001215820eb151c8176b225cc651559fecf07af450fd85802046656b34c18f6cf1938"
        "43c5225820927b8aa427a2be1b8834d233a2d34f61f13bfd44119c325d5896e183fee484f2"
    ),
}
CROSS_ORIGIN = {  # verified, in a page within another site's page
    "challenge": "3be5aacd03537142472340ab5969f240f1d87716e20b6807ac230655fa4b3b49",
    "id": "6e1050c0d2ca2f07c755cb2c66a74c64fa43065c18f938354d9915db2bd5ce57",
    "client": (
        "7b2274797065223a22776562617574686e2e637265617465222c226368616c6c656e6765223a224f2d57717a514e5463554a484930437257576e7951"
        "504859647862694332674872434d475666704c4f306b222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73"
        "734f726967696e223a747275652c22657874726144617461223a22636c69656e74446174614a534f4e206d617920626520657874656e646564207769"
        "7468206164646974696f6e616c206669656c647320696e20746865206675747572652c207375636820617320746869733a207a5a7175457444523944"
        "577170573574425754467567227d"
    ),
    "attestation": (
        "a363666d74646e6f6e656761747453746d74a068617574684461746158a4bfabc37432958b063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2"
        "e4b54500000000883f4f6014f19c09d87aa38123be48d000206e1050c0d2ca2f07c755cb2c66a74c64fa43065c18f938354d9915db2bd5ce57a50102"
        "0326200121582022200a473f90b11078851550d03b4e44a2279f8c4eca27b3153dedfe03e4e97d225820cbd0be95e746ad6f5a8191be11756e4c0420"
        "e72f65b466d39bc56b8b123a9c6e"
    ),
}
# Answers: of packed.ES256 (verified), none.ES256 (not), none.ES256.crossOrigin (verified, in another site's page).
PACKED_ES256_USED = {
    "challenge": "b1106fa46a57bef1781511c0557dc898a03413d5f0f17d244630c194c7e1adb5",
    "id": "c9a6f5b3462d02873fea0c56862234f99f081728084e511bb7760201a89054a5",
    "key": (
        "a50102032620012158201cf27f25da591208a4239c2e324f104f585525479a29edeedd830f48e77aeae522582059e4b7da6c0106e206ce390c93ab98"
        "a15a5ec3887e57f0cc2bece803b920c423"
    ),
    "data": "bfabc37432958b063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2e4b50d00000000",
    "client": (
        "7b2274797065223a22776562617574686e2e676574222c226368616c6c656e6765223a2273524276704770587676463446524841565833496d4b4130"
        "453958773858306b526a44426c4d6668726255222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73734f72"
        "6967696e223a66616c73652c22657874726144617461223a22636c69656e74446174614a534f4e206d617920626520657874656e6465642077697468"
        "206164646974696f6e616c206669656c647320696e20746865206675747572652c207375636820617320746869733a20415a4d77794d78496244382d"
        "756775464e7036723851227d"
    ),
    "signature": (
        "30450220694969d3ee928de6f02ef23a9c644d7d779916451734a94b432542f498a1ebe90221008b0819c824218a97152cd099c55bfb1477b29d900a"
        "49a64018314f9bfccda163"
    ),
}
NONE_ES256_USED = {
    "challenge": "39c0e7521417ba54d43e8dc95174f423dee9bf3cd804ff6d65c857c9abf4d408",
    "id": NONE_ES256["id"],
    "key": (
        "a5010203262001215820afefa16f97ca9b2d23eb86ccb64098d20db90856062eb249c33a9b672f26df61225820930a56b87a2fca66334b03458abf87"
        "9717c12cc68ed73290af2e2664796b9220"
    ),
    "data": "bfabc37432958b063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2e4b51900000000",
    "client": (
        "7b2274797065223a22776562617574686e2e676574222c226368616c6c656e6765223a224f63446e55685158756c5455506f334a5558543049393770"
        "767a7a59425039745a63685879617630314167222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73734f72"
        "6967696e223a66616c73657d"
    ),
    "signature": (
        "3046022100f50a4e2e4409249c4a853ba361282f09841df4dd4547a13a87780218deffcd380221008480ac0f0b93538174f575bf11a1dd5d78c6e486"
        "013f937295ea13653e331e87"
    ),
}
CROSS_ORIGIN_USED = {
    "challenge": "876aa517ba83fdee65fcffdbca4c84eeae5d54f8041a1fc85c991e5bbb273137",
    "id": CROSS_ORIGIN["id"],
    "key": (
        "a501020326200121582022200a473f90b11078851550d03b4e44a2279f8c4eca27b3153dedfe03e4e97d225820cbd0be95e746ad6f5a8191be11756e"
        "4c0420e72f65b466d39bc56b8b123a9c6e"
    ),
    "data": "bfabc37432958b063360d3ad6461c9c4735ae7f8edd46592a5e0f01452b2e4b50500000000",
    "client": (
        "7b2274797065223a22776562617574686e2e676574222c226368616c6c656e6765223a226832716c463771445f65356c5f505f62796b794537713564"
        "5650674547685f49584a6b655737736e4d5463222c226f726967696e223a2268747470733a2f2f6578616d706c652e6f7267222c2263726f73734f72"
        "6967696e223a747275652c22657874726144617461223a22636c69656e74446174614a534f4e206d617920626520657874656e646564207769746820"
        "6164646974696f6e616c206669656c647320696e20746865206675747572652c207375636820617320746869733a2039327063545644304162792d71"
        "3464746d6a36656667227d"
    ),
    "signature": (
        "3046022100eb12fcf23b12764c0f122e22371fab92e283879fd798f38ee1841c951b6e40e7022100c76237ff9db77b3c56f30837cda6a09acfa2e915"
        "544e609c0733b1184036d1cf"
    ),
}


def b(text: str) -> str:
    return b64(bytes.fromhex(text))


def answered(vector: dict[str, str]) -> str:
    """A vector as a browser sends it."""
    named = {"attestation": "attestationObject", "data": "authenticatorData", "signature": "signature"}
    response = {name: b(vector[short]) for short, name in named.items() if short in vector}
    response["clientDataJSON"] = b(vector["client"])
    return json.dumps({"id": b(vector["id"]), "rawId": b(vector["id"]), "type": "public-key", "response": response})


def challenged(monkeypatch: pytest.MonkeyPatch, vector: dict[str, str]) -> None:
    """Let the server ask for the challenge of a vector."""
    opened = passkeys._opened
    given = bytes.fromhex(vector["challenge"])
    monkeypatch.setattr(passkeys, "_opened", lambda *args: given if opened(*args) else None)


@pytest.mark.parametrize(
    ("vector", "taken"),
    [(PACKED_SELF_ES256, True), (NONE_ES256, False), (CROSS_ORIGIN, False)],
    ids=["self", "none", "cross"],
)
def test_of_the_standard_s_passkeys_those_are_kept_whose_device_verified_somebody_on_our_own_page(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, vector: dict[str, str], taken: bool
) -> None:
    asked = passkeys.to_register(desk, STANDARD, "s", "tablet", PASSWORD)
    challenged(monkeypatch, vector)
    answer = Answer(asked.token, answered(vector), "s")
    if taken:
        passkeys.register(desk, STANDARD, answer, "tablet")
    else:
        with pytest.raises(Refused, match="did not make"):
            passkeys.register(desk, STANDARD, answer, "tablet")
    assert [one.credential_id for one in passkeys.of(desk.store, desk.actor.id)] == [b(vector["id"])] * taken


@pytest.mark.parametrize(
    ("vector", "taken"),
    [(PACKED_ES256_USED, True), (NONE_ES256_USED, False), (CROSS_ORIGIN_USED, False)],
    ids=["packed", "none", "cross"],
)
def test_of_the_standard_s_answers_those_sign_in_whose_device_verified_somebody_on_our_own_page(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, vector: dict[str, str], taken: bool
) -> None:
    """They name nobody, as after the password."""
    store = desk.store
    kept.add(store, NOW, desk.actor.id, b(vector["id"]), b(vector["key"]), 0, "tablet")
    half = signing_in.half(store, NOW, desk.actor, "nurse@test.invalid")
    asked = passkeys.to_sign_in(store, NOW, STANDARD, "b", desk.actor.id)
    challenged(monkeypatch, vector)
    answer = Answer(asked.token, answered(vector), "b")
    if taken:
        assert signing_in.second_step_by_passkey(store, NOW, half, STANDARD, answer, CALLER)[0] == desk.actor
    else:
        with pytest.raises(Refused, match="not taken"):
            signing_in.second_step_by_passkey(store, NOW, half, STANDARD, answer, CALLER)


@pytest.mark.parametrize(
    ("address", "id", "origin"),
    [
        ("https://eyes.example", "eyes.example", "https://eyes.example"),
        ("https://Eyes.Example:443/", "eyes.example", "https://eyes.example"),
        ("https://eyes.example:8443", "eyes.example", "https://eyes.example:8443"),
        ("https://augen.münchen.example", "augen.xn--mnchen-3ya.example", "https://augen.xn--mnchen-3ya.example"),
        ("http://localhost:8000", "localhost", "http://localhost:8000"),
        ("http://eyes.example", None, None),  # no TLS: no secure context
        ("http://127.0.0.1:8000", None, None),  # an RP ID is a domain
        ("https://192.0.2.7", None, None),
        ("https://[2001:db8::1]", None, None),
    ],
)
def test_passkeys_hold_where_browsers_allow_them(address: str, id: str | None, origin: str | None) -> None:
    """Web Authentication Level 3: 5.1.3 (a secure context), 4 (an RP ID is a domain); HTML, the serialization of an origin."""
    found = passkeys.site(address, "x")
    assert (found and found.id, found and found.origin) == (id, origin)


def test_whoever_holds_a_passkey_signs_in_alone_and_its_use_is_on_record(desk: Desk) -> None:
    device = registered(desk)
    (before,) = passkeys.of(desk.store, desk.actor.id)
    assert (before.name, before.used_at) == ("tablet", None)
    assert signed_in(desk, device, minutes=1) == desk.actor
    (after,) = passkeys.of(desk.store, desk.actor.id)
    assert (after.used_at, after.sign_count) == (NOW + timedelta(minutes=1), 1)
    last = desk.store.rows("SELECT action, detail FROM audit ORDER BY number DESC LIMIT 1")[0]
    assert (last["action"], json.loads(last["detail"])["by"]) == ("signed in", "passkey")


def test_a_new_passkey_needs_the_password_and_a_name(desk: Desk) -> None:
    with pytest.raises(Refused, match="not your password"):
        passkeys.to_register(desk, HERE, "a session", "tablet", "wrong")
    for name in ("", " ", "x" * 61, "a\u202eb"):
        with pytest.raises(CareError, match="give it a name"):
            passkeys.to_register(desk, HERE, "a session", name, PASSWORD)


def test_the_device_is_asked_to_verify_and_not_to_hold_two(desk: Desk) -> None:
    registered(desk)
    asked = json.loads(passkeys.to_register(desk, HERE, "a session", "another", PASSWORD).options)
    assert asked["authenticatorSelection"]["userVerification"] == "required"
    assert asked["rp"] == {"id": "eyes.example", "name": "Test Eye Clinic"}
    assert [one["id"] for one in asked["excludeCredentials"]] == [passkeys.of(desk.store, desk.actor.id)[0].credential_id]
    assert json.loads(asked_alone(desk).options)["userVerification"] == "required"
    assert json.loads(asked_alone(desk).options)["allowCredentials"] == []


WRONG: dict[str, Callable[[Authenticator], Any]] = {
    "another site's page": lambda d: setattr(d, "origin", "https://eyes.example.evil.example"),
    "without TLS": lambda d: setattr(d, "origin", "http://eyes.example"),
    "another port": lambda d: setattr(d, "origin", "https://eyes.example:8443"),
    "another RP ID": lambda d: setattr(d, "rp_id", "evil.example"),
    "nobody verified": lambda d: setattr(d, "flags", PRESENT),
    "nobody there": lambda d: setattr(d, "flags", 4),
    "a page within another site's": lambda d: d.more.update(crossOrigin=True),
    "another challenge": lambda d: d.more.update(challenge=b64(bytes(32))),
    "the other kind of answer": lambda d: d.more.update(type="webauthn.other"),
}


@pytest.mark.parametrize("how", WRONG)
def test_a_wrong_answer_makes_no_passkey(desk: Desk, how: str) -> None:
    device = Authenticator()
    WRONG[how](device)
    with pytest.raises(Refused, match="did not make"):
        registered(desk, device)
    assert passkeys.of(desk.store, desk.actor.id) == []


@pytest.mark.parametrize("how", WRONG)
def test_a_wrong_answer_signs_nobody_in(desk: Desk, how: str) -> None:
    device = registered(desk)
    WRONG[how](device)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)


def test_another_key_signs_nobody_in(desk: Desk) -> None:
    device = registered(desk)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, dataclasses.replace(device, key=Authenticator().key))


def test_alone_the_device_has_to_name_whose_passkey_it_is(desk: Desk, surgeon: Actor) -> None:
    """Web Authentication Level 3, 7.2, step 6."""
    device = registered(desk)
    for handle in (None, surgeon.id.encode(), b""):
        with pytest.raises(Refused, match="not taken"):
            signed_in(desk, dataclasses.replace(device, handle=handle))


def test_a_challenge_is_taken_once(desk: Desk) -> None:
    device = registered(desk)
    asked = asked_alone(desk)
    assert signed_in(desk, device, asked) == desk.actor
    with pytest.raises(Refused, match="sent twice"):
        signed_in(desk, device, asked)


def test_a_challenge_is_used_up_by_a_wrong_answer(desk: Desk) -> None:
    device, asked = registered(desk), asked_alone(desk)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, Authenticator(), asked)
    with pytest.raises(Refused, match="sent twice"):
        signed_in(desk, device, asked)


def test_a_challenge_makes_one_passkey(desk: Desk) -> None:
    asked = passkeys.to_register(desk, HERE, "s", "tablet", PASSWORD)
    passkeys.register(desk, HERE, Answer(asked.token, Authenticator().make(asked.options), "s"), "tablet")
    with pytest.raises(Refused, match="sent twice"):
        passkeys.register(desk, HERE, Answer(asked.token, Authenticator().make(asked.options), "s"), "tablet")


def test_a_challenge_is_for_the_browser_that_asked(desk: Desk) -> None:
    device = registered(desk)
    with pytest.raises(Refused, match="sent twice"):
        signed_in(desk, device, holder="another browser")
    asked = passkeys.to_register(desk, HERE, "a session", "tablet", PASSWORD)
    with pytest.raises(Refused, match="sent twice"):
        passkeys.register(desk, HERE, Answer(asked.token, Authenticator().make(asked.options), "another"), "tablet")


def test_a_challenge_holds_for_five_minutes(desk: Desk) -> None:
    device = registered(desk)
    assert signed_in(desk, device, seconds=299) == desk.actor
    for seconds in (300, -1):
        with pytest.raises(Refused, match="too long"):
            signed_in(desk, device, seconds=seconds)


def test_a_challenge_is_for_what_it_was_made_for(desk: Desk) -> None:
    """One that was handed out after a password alone makes no passkey, and none for a second step is enough alone."""
    device, store = registered(desk), desk.store
    second = passkeys.to_sign_in(store, NOW, HERE, "a browser", desk.actor.id)
    with pytest.raises(Refused, match="too long"):
        signed_in(desk, device, second)
    with pytest.raises(Refused, match="too long"):
        passkeys.register(desk, HERE, Answer(second.token, Authenticator().make(_creating(second)), "a browser"), "x")


def _creating(asked: Asked) -> str:
    told = json.loads(asked.options)
    return json.dumps({"user": {"id": b64(b"x")}, "rp": {"id": told["rpId"]}, "challenge": told["challenge"]})


def test_a_count_that_does_not_go_up_is_refused_and_on_record(desk: Desk) -> None:
    device = registered(desk)
    signed_in(desk, device)
    copy = dataclasses.replace(device)
    signed_in(desk, device)
    with pytest.raises(Refused, match="may have been copied"):
        signed_in(desk, copy)
    last = desk.store.rows("SELECT action, subject FROM audit ORDER BY number DESC LIMIT 1")[0]
    assert (last["action"], last["subject"]) == ("passkey refused", desk.actor.id)
    device.count, device.step = -1, 1
    with pytest.raises(Refused, match="may have been copied"):
        signed_in(desk, device)  # it counted, and says 0


def test_nobody_without_the_key_moves_the_count(desk: Desk) -> None:
    device = registered(desk)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, dataclasses.replace(device, key=Authenticator().key, count=4_000_000_000))
    assert signed_in(desk, device) == desk.actor


def test_a_device_that_does_not_count_is_taken(desk: Desk) -> None:
    device = registered(desk, Authenticator(step=0))
    assert signed_in(desk, device) == signed_in(desk, device) == desk.actor


def test_one_s_passkeys_are_renamed_and_removed_and_nobody_else_s(desk: Desk, surgeon: Actor) -> None:
    device = registered(desk)
    (one,) = passkeys.of(desk.store, desk.actor.id)
    theirs = Desk(desk.store, NOW, surgeon, ZONE)
    for act in (lambda: passkeys.rename(theirs, one.id, "mine"), lambda: passkeys.remove(theirs, one.id)):
        with pytest.raises(NotFound):
            act()
    passkeys.rename(desk, one.id, "  the   blue key ")
    assert passkeys.of(desk.store, desk.actor.id)[0].name == "the blue key"
    passkeys.remove(desk, one.id)
    assert passkeys.of(desk.store, desk.actor.id) == []
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)
    with pytest.raises(NotFound):
        passkeys.remove(desk, one.id)


def test_passkeys_go_with_the_account(desk: Desk) -> None:
    device = registered(desk)
    accounts.end(desk.store, NOW, desk.actor.id)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)
    assert [row["removed_at"] for row in desk.store.rows("SELECT removed_at FROM passkeys")] != [None]


def test_an_ended_account_is_kept_out_even_where_its_passkey_stands(desk: Desk) -> None:
    device = registered(desk)
    people.end_staff(desk.store, NOW, desk.actor.id)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)


def test_after_the_password_only_one_s_own_passkey_will_do(desk: Desk, surgeon: Actor) -> None:
    store, theirs = desk.store, registered(Desk(desk.store, NOW, surgeon, ZONE))
    mine = registered(desk)
    half = signing_in.half(store, NOW, desk.actor, "nurse@test.invalid")
    for device, right in ((theirs, False), (mine, True)):
        asked = passkeys.to_sign_in(store, NOW, HERE, "b", desk.actor.id)
        assert [one["id"] for one in json.loads(asked.options)["allowCredentials"]] == [b64(mine.id)]
        answer = Answer(asked.token, device.sign(asked.options), "b")
        if right:
            assert signing_in.second_step_by_passkey(store, NOW, half, HERE, answer, CALLER)[0] == desk.actor
        else:
            with pytest.raises(Refused, match="not taken"):
                signing_in.second_step_by_passkey(store, NOW, half, HERE, answer, CALLER)


def test_a_passkey_may_be_asked_for_after_the_password_and_recovery_codes_stay(desk: Desk) -> None:
    store, id = desk.store, desk.actor.id
    with pytest.raises(Conflict, match="register a passkey first"):
        second_factor.ask_for_passkey(desk)
    registered(desk)
    assert not second_factor.wanted(store, id)
    recovery = second_factor.ask_for_passkey(desk)
    assert (second_factor.wanted(store, id), len(recovery)) == (True, second_factor.RECOVERY_CODES)
    assert second_factor.ask_for_passkey(desk) == []  # those of before hold
    with pytest.raises(Conflict, match="the last one"):
        passkeys.remove(desk, passkeys.of(store, id)[0].id)
    assert not second_factor.passes(store, NOW, id, "000000")
    assert second_factor.passes(store, NOW, id, recovery[0])
    assert not second_factor.passes(store, NOW, id, recovery[0])
    second_factor.remove(store, NOW, desk.actor, PASSWORD)
    assert not second_factor.wanted(store, id)
    assert not second_factor.passes(store, NOW, id, recovery[1])
    passkeys.remove(desk, passkeys.of(store, id)[0].id)


def test_whoever_lost_a_device_is_let_in_anew_without_its_passkeys(desk: Desk) -> None:
    device = registered(desk)
    second_factor.ask_for_passkey(desk)
    second_factor.drop(desk.store, NOW, desk.actor.id, "command line")
    assert not second_factor.wanted(desk.store, desk.actor.id)
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)


JUNK = [
    "",
    "[]",
    "{}",
    "null",
    '{"id": 1}',
    "[" * 5000,
    "x" * 30_000,
    '{"id": "YQ", "rawId": "YQ", "response": {}}',
    '{"id": "YQ", "rawId": "YQ", "type": "public-key", "response": {"clientDataJSON": "bm8"}}',
]


@pytest.mark.parametrize("junk", JUNK)
def test_junk_signs_nobody_in_and_registers_nothing(desk: Desk, junk: str) -> None:
    asked = asked_alone(desk)
    with pytest.raises(Refused, match="not taken"):
        signing_in.by_passkey(desk.store, NOW, HERE, Answer(asked.token, junk, "a browser"), CALLER)
    asked = passkeys.to_register(desk, HERE, "s", "tablet", PASSWORD)
    with pytest.raises(Refused, match="did not make"):
        passkeys.register(desk, HERE, Answer(asked.token, junk, "s"), "tablet")
    for token in ("", "forged", asked.token[:-2]):
        with pytest.raises(Refused, match="too long"):
            signing_in.by_passkey(desk.store, NOW, HERE, Answer(token, junk, "a browser"), CALLER)


def test_wrong_answers_from_one_address_are_counted(desk: Desk) -> None:
    device, told = registered(desk), []
    for _ in range(22):
        with pytest.raises(Refused) as refused:
            signed_in(desk, Authenticator())
        told.append(str(refused.value))
    assert [t.startswith("too many") for t in told] == [False] * 20 + [True] * 2
    with pytest.raises(Refused, match="too many"):
        signed_in(desk, device)
    assert signing_in.sign_in(desk.store, NOW, "nurse@test.invalid", PASSWORD, CALLER) == desk.actor  # counted apart


def test_wrong_answers_of_others_lock_no_browser_out_on_which_somebody_signed_in_before(desk: Desk) -> None:
    """A hospital may reach us from one address."""
    device, store = registered(desk), desk.store
    own, another = (Caller(CALLER.address, signing_in.mark(store, NOW, "nurse@test.invalid")) for _ in range(2))

    def answered(by: Authenticator, caller: Caller) -> Actor:
        asked = asked_alone(desk)
        return signing_in.by_passkey(store, NOW, HERE, Answer(asked.token, by.sign(asked.options), "a browser"), caller)[0]

    for caller in (CALLER, another):
        for n in range(22):
            with pytest.raises(Refused, match="too many" if n >= 20 else "was not taken"):
                answered(Authenticator(), caller)
    forged = Caller(CALLER.address, own.mark[:-2] + "xx")
    with pytest.raises(Refused, match="too many"):
        answered(device, forged)
    assert answered(device, own) == desk.actor


def test_right_answers_from_one_address_are_not_counted(desk: Desk) -> None:
    device = registered(desk)
    for _ in range(22):
        assert signed_in(desk, device) == desk.actor


def test_an_answer_is_no_longer_than_one_can_be(desk: Desk) -> None:
    device = registered(desk)
    device.more["extraData"] = "x" * 14_000
    assert signed_in(desk, device) == desk.actor
    device.more["extraData"] = "x" * 15_000  # in base 64 (RFC 4648) more than the 20 000 signs of an answer
    with pytest.raises(Refused, match="not taken"):
        signed_in(desk, device)


def test_nobody_has_passkeys_without_an_end(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(passkeys, "MOST", 2)
    registered(desk)
    registered(desk)
    with pytest.raises(Conflict, match="you have 2 passkeys; remove one first"):
        registered(desk)


def test_one_passkey_is_of_one_person(desk: Desk, surgeon: Actor) -> None:
    device = registered(desk)
    with pytest.raises(Conflict, match="known already"):
        registered(Desk(desk.store, NOW, surgeon, ZONE), device)
