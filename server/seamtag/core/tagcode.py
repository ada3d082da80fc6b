"""The code on a QR tag: six symbols of Crockford's base 32 and a check symbol by ISO/IEC 7064 MOD 37-2."""

import re

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
VALUES = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
"""The character set of MOD 37-2; the check symbol may fall on any of these."""
UNWANTED = "ILOU*"
SYMBOLS = 6

LINK = re.compile(r"https?://([^/\s]+)/t/([0-9a-z*]+)/?", re.ASCII | re.IGNORECASE)


def check_symbol(symbols: str) -> str:
    """The check symbol of a string. Source: ISO/IEC 7064, pure system MOD 37-2 (radix 2)."""
    total = 0
    for symbol in symbols:
        total = (total + VALUES.index(symbol)) * 2 % 37
    return VALUES[(1 - total) % 37]


def is_code(code: str) -> bool:
    return (
        len(code) == SYMBOLS + 1
        and all(symbol in ALPHABET for symbol in code)
        and check_symbol(code[:SYMBOLS]) == code[SYMBOLS]
    )


def code_of(number: int) -> str | None:
    """The code of a number below 32**6; None where its check symbol would be one that is easily misread."""
    symbols = ""
    for _ in range(SYMBOLS):
        number, digit = divmod(number, 32)
        symbols = ALPHABET[digit] + symbols
    check = check_symbol(symbols)
    return None if check in UNWANTED else symbols + check


def forgiven_symbols(typed: str) -> str:
    """The symbols that were meant by what was typed: O is 0, I and L are 1, case, blanks and dashes do not matter."""
    return re.sub(r"[\s-]", "", typed).upper().replace("O", "0").replace("I", "1").replace("L", "1")


def forgiven(typed: str) -> str | None:
    """The tag's code that was meant by what was typed; None where the check symbol does not fit."""
    plain = forgiven_symbols(typed)
    return plain if is_code(plain) else None


def read_link(text: str) -> tuple[str, str] | None:
    """Host and code of a scanned link `HTTPS://HOST/T/CODE`; None where it is none of ours or its check fails."""
    link = LINK.fullmatch(text.strip())
    code = forgiven(link[2]) if link else None
    return (link[1].lower(), code) if link and code else None


def link_of(host: str, code: str) -> str:
    """In capitals, so that a QR symbol can use its alphanumeric mode."""
    return f"HTTPS://{host.upper()}/T/{code}"
