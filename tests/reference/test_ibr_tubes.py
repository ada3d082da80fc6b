"""Tubes, tube plates and stays: PWT-11, and the Indian Boiler Regulations 1950 (dpiit.gov.in).

PWT-11 is second hand (scribd.com, document 265843307). Inches and psi.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from tests.reference.plan_limits import Rows, asked, bounds, close, exact, is_in, value

AT_THREADS = "C*(D - 1.28/N)**2/A"
STAY_TUBE = "5900*((D - 1.28/N)**2 - D1**2)/A"


def core(diameter: str, threads: int) -> Fraction:
    """Diameter at the bottom of the thread, by fractions."""
    return exact(diameter) - Fraction(128, 100 * threads)


@pytest.mark.source("PWT-11")
@pytest.mark.parametrize(
    ("typed", "good"), [("15/64", False), ("1/4", True), ("1/2", True), ("3/4", True), ("49/64", False)]
)
def test_a_water_tube_projects_a_quarter_to_three_quarters_before_flaring(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("1/4", "3/4")) is good


@pytest.mark.source("PWT-11")
@pytest.mark.parametrize(("typed", "good"), [("2.656", True), ("2.655", False), ("2 21/32", True), ("2 5/8", False)])
def test_a_flare_is_an_eighth_greater_than_the_hole(typed: str, good: bool) -> None:
    assert value("hole + 1/8", hole="2.531") == Decimal("2.656")
    assert is_in(typed, bounds("hole + 1/8", "", hole="2.531")) is good


@pytest.mark.source("PWT-11")
@pytest.mark.parametrize(("typed", "good"), [("3/8", True), ("25/64", False), ("1/4", True)])
def test_the_throat_of_a_seal_weld_is_not_over_three_eighths(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("", "3/8")) is good


@pytest.mark.source("IBR 152 and 517")
@pytest.mark.parametrize(
    ("diameter", "bell"), [("2 1/2", "0.140625"), ("2", "0.125"), ("3", "0.15625"), ("4", "0.1875"), ("0", "0.0625")]
)
def test_an_expanded_tube_is_bell_mouthed_by_its_diameter(diameter: str, bell: str) -> None:
    assert value("D/32 + 2/32", D=diameter) == Decimal(bell)


@pytest.mark.source("IBR 152 and 517")
@pytest.mark.parametrize(
    ("seat", "square", "asks", "good"),
    [("1/2", "0", True, True), ("31/64", "0", True, False), ("1/4", "1", False, False)],
)
def test_a_seat_not_square_to_the_plate_is_parallel_for_half_an_inch(
    seat: str, square: str, asks: bool, good: bool
) -> None:
    assert asked("square == 0", square=square) is asks
    assert is_in(seat, bounds("1/2")) is good


@pytest.mark.source("IBR 337(c)")
@pytest.mark.parametrize(("typed", "good"), [("0.024", True), ("0.0241", False), ("0", True), ("1/32", False)])
def test_the_inner_fin_of_a_butt_welded_tube_is_a_fifth_of_the_wall(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("0", "0.2*t", t="0.120")) is good


@pytest.mark.source("IBR 580")
@pytest.mark.parametrize(
    ("hole", "ligament", "plate", "area"),
    [("2 17/32", "0.81640625", "0.51640625", "0.4553125"), ("2", "0.75", "0.45", "0.365"),
     ("3 1/32", "0.87890625", "0.57890625", "0.5403125")],
)  # fmt: skip
def test_ligament_plate_and_section_between_tube_holes(hole: str, ligament: str, plate: str, area: str) -> None:
    """The page prints 'D + 1/2 8' for the ligament; it is read here as D/8 + 1/2."""
    assert value("D/8 + 1/2", D=hole) == Decimal(ligament)
    assert value("0.125*D + 0.2", D=hole) == Decimal(plate)
    assert value("0.17*D + 0.025", D=hole) == Decimal(area)


@pytest.mark.source("IBR 580")
@pytest.mark.parametrize(
    ("hole", "thickness", "good"),
    [
        ("2", "1/2", True), ("2", "31/64", False), ("2 1/64", "1/2", False), ("2 1/64", "9/16", True),
        ("2 17/32", "9/16", True), ("2 17/32", "35/64", False),
    ],
)  # fmt: skip
def test_a_tube_plate_is_never_under_a_half_or_nine_sixteenths(hole: str, thickness: str, good: bool) -> None:
    least: Rows = [("from", "0", "1/2"), ("after", "2", "9/16")]
    lower = "max(table('least', D), 0.125*D + 0.2)"
    assert is_in(thickness, bounds(lower, "", {"least": least}, D=hole)) is good


@pytest.mark.source("IBR 581")
@pytest.mark.parametrize(("outside", "inside", "threads", "area"), [("3", "2 1/4", 10, 48), ("3 1/4", "2 1/2", 11, 60)])
def test_working_pressure_of_stay_tubes(outside: str, inside: str, threads: int, area: int) -> None:
    found = value(STAY_TUBE, D=outside, D1=inside, N=str(threads), A=str(area))
    assert close(found, 5900 * (core(outside, threads) ** 2 - exact(inside) ** 2) / area)


@pytest.mark.source("IBR 585")
@pytest.mark.parametrize("constant", ["7100", "8640", "4700"])
def test_working_pressure_of_screw_stays_at_their_threads(constant: str, checked: Callable[[int], None]) -> None:
    """Steel, steel longitudinal with nuts, copper."""
    for diameter in ("7/8", "1", "1 1/8", "1 1/4", "1 1/2"):
        for threads in (9, 10, 11, 12):
            found = value(AT_THREADS, C=constant, D=diameter, N=str(threads), A="20 1/4")
            assert close(found, int(constant) * core(diameter, threads) ** 2 / Fraction(81, 4))
    checked(20)


@pytest.mark.source("IBR 585")
@pytest.mark.parametrize(
    ("plate", "diameter", "pitch"), [("3/8", "0.75", "5.25"), ("5/16", "0.75", "4.375"), ("1/2", "1", "7")]
)
def test_furnace_stays_by_the_thickness_of_the_plate(plate: str, diameter: str, pitch: str) -> None:
    assert value("max(3/4, 2*t)", t=plate) == Decimal(diameter)
    assert value("14*t", t=plate) == Decimal(pitch)


@pytest.mark.source("IBR 587")
def test_working_pressure_of_a_bar_stay_is_as_worked() -> None:
    assert value("C*D1**2/A", C="8640", D1="1.5", A="100") == Decimal("194.4")
    threaded = value(AT_THREADS, C="8640", D="1.5", N="12", A="100")
    assert abs(threaded - Decimal("167.735")) <= Decimal("0.001")
    assert close(threaded, 8640 * core("1 1/2", 12) ** 2 / 100)


@pytest.mark.source("IBR 587")
@pytest.mark.parametrize(
    ("constant", "pressure"), [("7850", "176.625"), ("8640", "194.4"), ("9420", "211.95"), ("10200", "229.5")]
)
def test_a_bar_stay_by_the_strength_of_its_bar(constant: str, pressure: str) -> None:
    """26 to 30, 28 to 32, 30 to 34 and 32 to 36 tons to the square inch."""
    assert value("C*D1**2/A", C=constant, D1="1 1/2", A="100") == Decimal(pressure)


@pytest.mark.source("IBR 587")
@pytest.mark.parametrize(
    ("diameter", "stays"),
    [("4'", "4"), ("4' 11 15/16\"", "4"), ("5'", "5"), ("5 ft 11 in", "5"), ("6'", "6"), ("7' 6\"", "6"), ("72", "6")],
)
def test_bar_stays_of_a_vertical_boiler_by_its_diameter(diameter: str, stays: str) -> None:
    least: Rows = [("from", "4*12", "4"), ("from", "5*12", "5"), ("from", "6*12", "6")]
    assert value("table('least', D)", {"least": least}, D=diameter) == Decimal(stays)


@pytest.mark.source("IBR 587")
@pytest.mark.parametrize(("typed", "good"), [("1", True), ("63/64", False), ("1 1/2", True)])
def test_a_bar_stay_is_nowhere_under_an_inch(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("1")) is good


@pytest.mark.source("IBR 588(a)")
def test_the_area_of_a_stay_tube_is_the_square_of_the_mean_pitch_less_its_holes() -> None:
    """Irregular nest: a quarter of the sum of four sides, squared; the area of holes is a figure."""
    found = value("mean(side)**2 - holes", None, {"side": ["7", "7 1/2", "8", "7 1/2"]}, holes="10")
    assert found == Decimal("46.25")


@pytest.mark.source("IBR 201")
@pytest.mark.parametrize(
    ("thickness", "axis", "square"),
    [("1/2", "12", 6), ("3/4", "12", 9), ("1/2", "8", 4), ("5/8", "10", Fraction(25, 4))],
)
def test_the_flange_around_a_manhole_is_as_deep_as_the_root_of_thickness_times_axis(
    thickness: str, axis: str, square: Fraction
) -> None:
    found = value("sqrt(T*W)", T=thickness, W=axis)
    assert close(found * found, Fraction(square))


@pytest.mark.source("IBR 201")
def test_the_depth_of_the_flange_as_worked() -> None:
    assert abs(value("sqrt(T*W)", T="1/2", W="12") - Decimal("2.4495")) <= Decimal("0.00005")


@pytest.mark.source("IBR 208")
@pytest.mark.parametrize(
    ("constant", "iron", "factor"), [("4700", "0", "1"), ("7000", "0", "1"), ("7000", "1", "0.85")]
)
def test_bolts_and_studs_of_iron_carry_fifteen_per_cent_less(constant: str, iron: str, factor: str) -> None:
    text = "M*C*(D - 1.28/N)**2/A*(0.85 if iron == 1 else 1)"
    found = value(text, M="8", C=constant, D="1", N="8", A="150", iron=iron)
    assert close(found, 8 * int(constant) * core("1", 8) ** 2 / 150 * exact(factor))
