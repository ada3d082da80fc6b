"""Tag codes against python-stdnum, an implementation of ISO/IEC 7064 MOD 37-2 that knows nothing of ours."""

import random
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from seamtag.core import tagcode

SYMBOLS = st.text(alphabet=tagcode.ALPHABET, min_size=tagcode.SYMBOLS, max_size=tagcode.SYMBOLS)


def some_codes(count: int) -> list[str]:
    rng = random.Random(7064)
    found = [tagcode.code_of(rng.randrange(32**tagcode.SYMBOLS)) for _ in range(count * 2)]
    return [code for code in found if code][:count]


CODES = some_codes(200)


@pytest.mark.source("ISO/IEC 7064 MOD 37-2")
@settings(deadline=None, database=None, derandomize=True, max_examples=500)
@given(SYMBOLS)
def test_check_symbols_agree(symbols: str) -> None:
    assert tagcode.check_symbol(symbols) == mod_37_2.calc_check_digit(symbols)


@pytest.mark.source("ISO/IEC 7064 MOD 37-2")
def test_codes_drawn_are_valid_by_the_reference(checked: Callable[[int], None]) -> None:
    assert len(CODES) == 200
    assert all(mod_37_2.is_valid(code) and tagcode.is_code(code) for code in CODES)
    checked(len(CODES))


@pytest.mark.source("ISO/IEC 7064 MOD 37-2")
def test_no_single_wrong_symbol_is_missed(checked: Callable[[int], None]) -> None:
    """At every place, by every symbol of the check character set; both say no, and typing is not forgiven into yes."""
    tried = 0
    for code in CODES:
        for place, right in enumerate(code):
            for wrong in tagcode.VALUES:
                if wrong == right:
                    continue
                typed = code[:place] + wrong + code[place + 1 :]
                tried += 1
                assert not mod_37_2.is_valid(typed)
                assert not tagcode.is_code(typed)
                assert tagcode.forgiven(typed) in (None, code)
    assert tried == 200 * 7 * 36
    checked(tried)


@pytest.mark.source("ISO/IEC 7064 MOD 37-2")
def test_no_swap_of_neighbours_is_missed(checked: Callable[[int], None]) -> None:
    tried = 0
    for code in CODES:
        for place in range(len(code) - 1):
            if code[place] == code[place + 1]:
                continue
            typed = code[:place] + code[place + 1] + code[place] + code[place + 2 :]
            tried += 1
            assert not mod_37_2.is_valid(typed)
            assert not tagcode.is_code(typed)
            assert tagcode.forgiven(typed) is None
    assert tried > 1000
    checked(tried)


@pytest.mark.source("Crockford's base 32")
@pytest.mark.parametrize("code", CODES[:20])
def test_what_is_easily_misread_is_forgiven_to_the_same_code(code: str) -> None:
    """By the alphabet of Crockford's base 32: O is 0, I and L are 1, case does not matter."""
    for typed in (code.lower(), code.replace("0", "O"), code.replace("1", "l"), code.replace("1", "i")):
        assert tagcode.forgiven(typed) == code
