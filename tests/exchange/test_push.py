"""A push as a browser takes it. Outside check: the example of RFC 8291, section 5 and appendix A."""

import pytest
from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.asymmetric import ec

from tests.exchange.conftest import from_base64url
from tests.exchange.decrypting import decrypted

# RFC 8291 5: the private key and the authentication secret of the receiver, and the message on the line.
PRIVATE = "q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94"
SECRET = "BTBZMqHH6r4Tts7J_aSIgg"
ON_THE_LINE = (
    "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_"
    "yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN"
)


@pytest.fixture
def key() -> ec.EllipticCurvePrivateKey:
    return ec.derive_private_key(int.from_bytes(from_base64url(PRIVATE), "big"), ec.SECP256R1())


def test_the_example_of_the_standard_is_read(key: ec.EllipticCurvePrivateKey) -> None:
    assert (
        decrypted(from_base64url(ON_THE_LINE), key, from_base64url(SECRET)) == b"When I grow up, I want to be a watermelon"
    )


@pytest.mark.parametrize("place", [0, 30, 90, -1])
def test_a_message_with_a_bit_turned_is_not(key: ec.EllipticCurvePrivateKey, place: int) -> None:
    body = bytearray(from_base64url(ON_THE_LINE))
    body[place] ^= 1
    with pytest.raises((InvalidTag, ValueError)):
        decrypted(bytes(body), key, from_base64url(SECRET))
