"""Figures of the brakes in the owner's units, as templates call for them."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.units.show import (
    METRIC,
    Preference,
    figure,
    show_force,
    show_length,
    show_mass,
    show_pressure,
    show_speed,
    show_temperature,
    show_volume,
)


@dataclass(frozen=True, slots=True)
class Units:
    """Shows figures in one owner's units."""

    preference: Preference = METRIC

    def force(self, newtons: float) -> str:
        """A force.

        >>> Units().force(499.96)
        '500 N'
        """
        return show_force(round(newtons), self.preference)

    def pressure(self, pascals: float) -> str:
        """A pressure."""
        return show_pressure(pascals, self.preference)

    def travel(self, metres: float) -> str:
        """A travel of the pedal, to the millimetre or the twentieth of an inch.

        >>> Units().travel(0.0833)
        '83 mm'
        """
        if self.preference.length == "in":
            return f"{figure(metres / 0.0254, significant=2)} in"
        return f"{metres * 1000:.0f} mm"

    def length(self, metres: float) -> str:
        """A length as it is measured."""
        return show_length(metres, self.preference)

    def distance(self, metres: float) -> str:
        """A distance on the road."""
        return f"{metres:.0f} m"

    def mass(self, kilograms: float) -> str:
        """A mass."""
        return show_mass(kilograms, self.preference)

    def speed(self, metres_a_second: float) -> str:
        """A speed."""
        return show_speed(metres_a_second, self.preference)

    def volume(self, cubic_metres: float) -> str:
        """A volume of fluid."""
        return show_volume(cubic_metres, self.preference)

    def warm(self, degrees_c: float) -> str:
        """A temperature to the degree."""
        return show_temperature(round(degrees_c), self.preference)

    def share(self, share: float) -> str:
        """A share of a whole.

        >>> Units().share(0.536)
        '54 %'
        """
        return f"{share * 100:.0f} %"

    def reached(self, figure: float, unit: str) -> str:
        """What a yardstick's answer reached, in its own unit.

        >>> Units().reached(0.264, "slope"), Units().reached(95e-6, "m3")
        ('26 %', '95 ml')
        >>> Units().reached(5.263, "m/s2")
        '5.26 m/s2'
        """
        if unit in {"share", "slope"}:
            return self.share(figure)
        if unit == "m3":
            return self.volume(figure)
        return f"{figure:.2f} {unit}"

    def slowing(self, metres_a_second_squared: float) -> str:
        """A deceleration, without its unit.

        >>> Units().slowing(0.02)
        '0.0'
        """
        return f"{metres_a_second_squared:.1f}"
