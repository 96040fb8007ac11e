"""The limits of the Aldermoor A4 as a programmer would write them by hand, with binary floats.

It is here to be measured against, and nowhere else: on a limit it may come out on either side. It works in
pounds, inches and US gallons, the units of the sheet.
"""

from __future__ import annotations

from bisect import bisect_right

FUEL = 6.0
FRONT, REAR, NOSE, AFT, WING_ARM, AFT_TANK_ARM = 108.5, 144.0, 62.0, 168.0, 101.0, 150.0

HEIGHTS = (0.0, 4000.0, 8000.0)
DEGREES = (0.0, 40.0, 80.0, 100.0)
CLIMB = ((2640.0, 2640.0, 2640.0, 2580.0), (2640.0, 2640.0, 2540.0, 2450.0), (2560.0, 2460.0, 2330.0, 2240.0))

SEATS = (0.0, 200.0, 320.0, 400.0)
LOCKER = (120.0, 120.0, 75.0, 30.0)


def climb(height: float, degrees: float) -> float:
    """The take-off mass for height and temperature, linear between the printed values."""
    i = bisect_right(HEIGHTS, height, 1, 2) - 1
    j = bisect_right(DEGREES, degrees, 1, 3) - 1
    x = (height - HEIGHTS[i]) / (HEIGHTS[i + 1] - HEIGHTS[i])
    y = (degrees - DEGREES[j]) / (DEGREES[j + 1] - DEGREES[j])
    near, far = CLIMB[i], CLIMB[i + 1]
    low = near[j] + (near[j + 1] - near[j]) * y
    high = far[j] + (far[j + 1] - far[j]) * y
    return low + (high - low) * x


def locker_allowed(rear: float) -> float:
    """What the aft locker may carry, linear between the printed values."""
    i = bisect_right(SEATS, rear, 1, 3) - 1
    return LOCKER[i] + (LOCKER[i + 1] - LOCKER[i]) * (rear - SEATS[i]) / (SEATS[i + 1] - SEATS[i])


def in_normal(moment: float, mass: float) -> bool:
    """Whether a point lies in the normal category's envelope."""
    cg = moment / mass
    return 1500.0 <= mass <= 2640.0 and 103.0 <= cg <= 114.0 and cg >= 103.0 + (mass - 2040.0) * 0.01


def in_utility(moment: float, mass: float) -> bool:
    """Whether a point lies in the utility category's envelope."""
    cg = moment / mass
    return 1500.0 <= mass <= 2240.0 and 103.0 <= cg <= 109.5 and cg >= 103.0 + (mass - 2040.0) * 0.01


def burn(wing: float, aft: float, amount: float) -> list[tuple[float, float]]:
    """The two tanks' levels when nothing is burned and after each stretch of the burn."""
    levels = [(wing, aft)]
    if amount > 0.0 and wing > 12.0:
        used = min(wing - 12.0, amount)
        wing, amount = wing - used, amount - used
        levels.append((wing, aft))
    if amount > 0.0 and aft > 0.0:
        used = min(aft, amount)
        aft, amount = aft - used, amount - used
        levels.append((wing, aft))
    if amount > 0.0 and wing > 0.0:
        wing -= min(wing, amount)
        levels.append((wing, aft))
    return levels


def verdicts(
    empty_mass: float,
    empty_arm: float,
    is_normal: bool,
    height: float,
    degrees: float,
    is_grass: bool,
    pilot: float,
    passenger: float,
    rear: float,
    nose: float,
    locker: float,
    wing: float,
    aft: float,
    taxi: float,
    trip: float,
) -> tuple[bool | None, ...]:
    """For each limit, in the order of the sheet, whether it holds; None where it does not apply."""
    dry = empty_mass + pilot + passenger + rear + nose + locker
    dry_moment = empty_mass * empty_arm + (pilot + passenger) * FRONT + rear * REAR + nose * NOSE + locker * AFT
    takeoff_wing, takeoff_aft = burn(wing, aft, taxi)[-1] if taxi else (wing, aft)
    flight = burn(takeoff_wing, takeoff_aft, trip)
    landing_wing, landing_aft = flight[-1]
    takeoff = dry + (takeoff_wing + takeoff_aft) * FUEL
    landing = dry + (landing_wing + landing_aft) * FUEL
    is_inside = in_normal if is_normal else in_utility
    # The forward edge leans so that a path between two points inside cannot leave through it.
    is_balanced = True
    for wing_left, aft_left in flight:
        fuel_moment = (wing_left * WING_ARM + aft_left * AFT_TANK_ARM) * FUEL
        if not is_inside(dry_moment + fuel_moment, dry + (wing_left + aft_left) * FUEL):
            is_balanced = False
            break
    return (
        dry + (wing + aft) * FUEL <= 2652.0,
        takeoff <= (2640.0 if is_normal else 2240.0),
        landing <= 2510.0,
        dry <= 2400.0,
        takeoff <= climb(height, degrees),
        is_balanced if is_normal else None,
        None if is_normal else is_balanced,
        None if is_normal else rear == 0.0 and nose == 0.0 and locker == 0.0,
        nose + locker <= 180.0,
        locker <= locker_allowed(rear),
        wing >= 38.0 if aft > 0.0 else None,
        landing_wing + landing_aft >= 9.2 * 0.75,
        takeoff <= 2450.0 if is_grass else None,
        0.0 <= pilot <= 260.0,
        0.0 <= passenger <= 260.0,
        0.0 <= rear <= 400.0,
        0.0 <= nose <= 100.0,
        0.0 <= locker <= 120.0,
        0.0 <= wing <= 44.0,
        0.0 <= aft <= 14.0,
        taxi <= wing + aft and taxi + trip <= wing + aft,
    )
