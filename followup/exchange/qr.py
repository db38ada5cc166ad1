"""QR codes as inline SVG, and as text for a terminal."""

import io

import qrcode
from qrcode.image.svg import SvgPathImage


def svg(text: str) -> str:
    """An SVG element, without XML declaration, that a page can hold inline."""
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=4)
    code.add_data(text)
    image = code.make_image(image_factory=SvgPathImage)
    out = io.BytesIO()
    image.save(out)
    drawn = out.getvalue().decode()
    return drawn[drawn.index("<svg") :]


def blocks(text: str) -> str:
    """A code for a terminal of light letters on a dark ground, two rows of it in a line."""
    code = qrcode.QRCode(border=2)
    code.add_data(text)
    out = io.StringIO()
    code.print_ascii(out, invert=True)
    return out.getvalue()
