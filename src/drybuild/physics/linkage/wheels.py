"""What a motion means at the wheel, in the signs of the trade.

The one place where signs are settled. Axes are ISO 8855 (x forward, y left, z up); a right wheel
is read in the mirror, so both sides speak alike:

* travel: positive in bump, wheel up against the body;
* camber: positive with the top outboard; toe-in: positive with the front edge inboard;
* steer angle: positive to the left, on both wheels;
* caster: positive with the top of the steering axis rearward; kingpin inclination: top inboard;
* scrub radius: positive where the axis meets the road inboard of the contact's centre;
  trail: positive where it meets the road ahead of it; both in the axes of the steered wheel;
* track and wheelbase change: positive outward and forward.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from drybuild.physics.linkage.mechanism import Mount
from drybuild.physics.linkage.motion import Motion
from drybuild.physics.linkage.vectors import Array, cross, dot, unit

UP = np.array([0.0, 0.0, 1.0])[:, np.newaxis, np.newaxis]


@dataclass(frozen=True, kw_only=True)
class WheelMotion:
    """One wheel over a motion; every value is (travel, steer, roll, samples)."""

    motion: Motion
    wheel: Mount
    apart: bool = False
    """Whether rates are those of this wheel's bump while its fellow falls: in roll."""

    @cached_property
    def _rates(self) -> Array:
        """Rates of the unknowns per bump of both wheels together, or apart, steering held."""
        rates = np.asarray(self.motion.drive_rates())
        if self.apart and rates.shape[1] > 1:
            return np.asarray((rates[:, 0] - rates[:, 1]) * self.wheel.side)
        return np.asarray(rates.sum(axis=1))

    @cached_property
    def in_roll(self) -> WheelMotion:
        """The same wheel, with rates per bump while its fellow falls."""
        return replace(self, apart=True)

    @cached_property
    def _centre(self) -> Array:
        return self._mirror(self.motion.pose.place(self.wheel.frame, self.wheel.centre))

    @cached_property
    def _spin(self) -> Array:
        found = self._mirror(self.motion.pose.aim(self.wheel.frame, self.wheel.spin))
        return np.asarray(found + 0.0 * self.motion.residual)

    @cached_property
    def _heading(self) -> Array:
        return unit(vector=cross(a=self._spin, b=UP))

    @cached_property
    def _contact(self) -> Array:
        return self._centre - self.wheel.radius * cross(a=self._heading, b=self._spin)

    @cached_property
    def _velocity(self) -> Array:
        """Velocity of the wheel's centre per bump."""
        place = self._mirror(self._centre)
        found = self.motion.pose.velocity(self.wheel.frame, place, self._rates)
        return self._mirror(found)

    @cached_property
    def _turning(self) -> Array:
        """Angular velocity per bump; a rotation changes sign in the mirror where y does not."""
        return -self.wheel.side * self._mirror(
            -self.motion.pose.spin(self.wheel.frame, self._rates)
        )

    @cached_property
    def _contact_velocity(self) -> Array:
        return np.asarray(self._velocity + cross(a=self._turning, b=self._contact - self._centre))

    @cached_property
    def _axis(self) -> tuple[Array, Array]:
        """A point of the steering axis and its direction upward."""
        if self.wheel.kingpin is None:
            return self._instant_axis()
        lower, upper = (
            self._mirror(self.motion.pose.place(joint.frame, joint.point))
            for joint in self.wheel.kingpin
        )
        return lower, unit(vector=upper - lower)

    def _instant_axis(self) -> tuple[Array, Array]:
        """Return the axis that the wheel turns about when only the toe link gives."""
        name = self.motion.mechanism.steers
        if not name:
            nothing = np.full_like(self._centre, np.nan)
            return nothing, nothing
        rates = self.motion.rates(name)
        pose, frame = self.motion.pose, self.wheel.frame
        turning = -self.wheel.side * self._mirror(-pose.spin(frame, rates))
        moving = self._mirror(pose.velocity(frame, self._mirror(self._centre), rates))
        direction = unit(vector=turning * np.sign(turning[2]))
        size = dot(a=turning, b=turning)
        return np.asarray(self._centre + cross(a=turning, b=moving) / size), direction

    @cached_property
    def _axis_on_road(self) -> Array:
        point, direction = self._axis
        return np.asarray(point + direction * ((self._contact[2] - point[2]) / direction[2]))

    def _mirror(self, vector: Array) -> Array:
        if self.wheel.side > 0:
            return vector
        return np.stack((vector[0], -vector[1], vector[2]))

    def _grid(self, values: Array) -> Array:
        # What stands on the car's body, such as a pillar, is the same at every position.
        whole = (*values.shape[:-2], *self.motion.residual.shape)
        return self.motion.grid(np.broadcast_to(values, whole))

    def outline(self, place: int, corners: int = 36) -> list[Array]:
        """Return the rolling circle at a position as points in the car's axes, nominal [m]."""
        centre, spin = (self._mirror(one)[:, place, 0] for one in (self._centre, self._spin))
        ahead = unit(vector=cross(a=spin, b=UP[:, 0, 0]))
        up = cross(a=ahead, b=spin)
        radius = float(np.ravel(self.wheel.radius)[0])
        turns = np.linspace(0.0, 2.0 * np.pi, corners + 1)
        return [centre + radius * (np.cos(t) * ahead + np.sin(t) * up) for t in turns]

    @property
    def travel(self) -> Array:
        """Rise of the wheel's centre from its design position [m]."""
        return self._grid(self._centre[2] - self._mirror(self.wheel.centre)[2])

    @property
    def camber(self) -> Array:
        """Angle of the wheel's plane to the vertical of the car's body [rad]."""
        return self._grid(-np.arcsin(self._spin[2]))

    @property
    def toe_in(self) -> Array:
        """Angle of the wheel's plane to straight ahead, front edge inward [rad]."""
        return self._grid(np.arctan2(self._spin[0], self._spin[1]))

    @property
    def steer_angle(self) -> Array:
        """The same, to the left [rad]."""
        return -self.wheel.side * self.toe_in

    @property
    def caster(self) -> Array:
        """Lean of the steering axis, top rearward [rad]."""
        direction = self._axis[1]
        return self._grid(np.arctan2(-direction[0], direction[2]))

    @property
    def kingpin_inclination(self) -> Array:
        """Lean of the steering axis, top inboard [rad]."""
        direction = self._axis[1]
        return self._grid(np.arctan2(-direction[1], direction[2]))

    @property
    def scrub_radius(self) -> Array:
        """Contact's centre outside the steering axis at the road, along the wheel's axis [m]."""
        lateral = cross(a=UP, b=self._heading)
        return self._grid(dot(a=lateral, b=self._contact - self._axis_on_road))

    @property
    def trail(self) -> Array:
        """Steering axis ahead of the contact's centre at the road, along the wheel [m]."""
        return self._grid(dot(a=self._heading, b=self._axis_on_road - self._contact))

    @property
    def hub_offset(self) -> Array:
        """How far the wheel's centre stands outside the steering axis, at its height [m]."""
        point, direction = self._axis
        at_hub = point + direction * ((self._centre[2] - point[2]) / direction[2])
        return self._grid(self._centre[1] - at_hub[1])

    @property
    def contact_offset(self) -> Array:
        """Distance of the contact's centre from the car's centre plane: half of the track [m]."""
        return self._grid(self._contact[1])

    @property
    def contact_height(self) -> Array:
        """Height of the contact's centre in the car's body [m]."""
        return self._grid(self._contact[2])

    @property
    def wheelbase_change(self) -> Array:
        """How far forward the wheel's centre went [m]."""
        return self._grid(self._centre[0] - self._mirror(self.wheel.centre)[0])

    @property
    def camber_rate(self) -> Array:
        """Camber per bump [rad/m]."""
        spin_rate = cross(a=self._turning, b=self._spin)[2]
        return self._grid(-spin_rate / np.sqrt(1.0 - self._spin[2] ** 2))

    @property
    def toe_in_rate(self) -> Array:
        """Toe-in per bump: bump steer [rad/m]."""
        rate = cross(a=self._turning, b=self._spin)
        x, y = self._spin[0], self._spin[1]
        return self._grid((y * rate[0] - x * rate[1]) / (x**2 + y**2))

    @property
    def turn_rate(self) -> Array:
        """Angular velocity of the wheel's carrier per bump, (x, y, z), left [rad/m]."""
        return self._grid(self._turning)

    @property
    def caster_rate(self) -> Array:
        """Turn of the wheel's carrier per bump, top rearward [rad/m]."""
        return self._grid(-self._turning[1])

    @property
    def front_view_centre(self) -> Array:
        """Instantaneous centre seen from the front: lateral place and height in the body [m]."""
        y = self._centre[1] - self._velocity[2] / self._turning[0]
        z = self._centre[2] + self._velocity[1] / self._turning[0]
        return self._grid(np.stack((y, z)))

    @property
    def side_view_centre(self) -> Array:
        """Instantaneous centre seen from the side: x and height in the body [m]."""
        x = self._centre[0] + self._velocity[2] / self._turning[1]
        z = self._centre[2] - self._velocity[0] / self._turning[1]
        return self._grid(np.stack((x, z)))

    @property
    def contact_path_slope(self) -> Array:
        """Forward motion of the contact per rise, wheel locked to its carrier [-]."""
        return self._grid(self._contact_velocity[0] / self._contact_velocity[2])

    @property
    def centre_path_slope(self) -> Array:
        """Forward motion of the wheel's centre per rise [-]."""
        return self._grid(self._velocity[0] / self._velocity[2])

    @property
    def roll_centre_height(self) -> Array:
        """Height over the road of the point that side forces do not roll the body about [m].

        A single wheel: h = y v_y / v_z of the contact; a twist beam likewise, its wheels moving
        apart. An axle: where its own roll leaves the
        centre plane at rest, above the axle's middle.
        """
        if self.motion.mechanism.twisting and not self.apart:
            return self.in_roll.roll_centre_height
        if self.motion.mechanism.drives == 1 or self.motion.mechanism.twisting:
            slope = self._contact_velocity[1] / self._contact_velocity[2]
            return self._grid(self._contact[1] * slope)
        return self._grid(self._roll_axis(self._centre[0])[0] - self._contact[2])

    @property
    def roll_axis_slope(self) -> Array:
        """Rise forward of the line that an axle rolls about: its steer per roll [-]."""
        return self._grid(self._roll_axis(self._centre[0])[1])

    def roll_axis_height(self, x: Array) -> Array:
        """Return the height over the road of an axle's roll axis at a place along the car [m]."""
        return self._grid(self._roll_axis(x)[0] - self._contact[2])

    def _roll_axis(self, x: Array) -> tuple[Array, Array]:
        rates = self.motion.drive_rates()
        if rates.shape[1] == 1:
            nothing = np.full_like(self._centre[2], np.nan)
            return nothing, nothing
        rolling = rates[:, 0] - rates[:, 1]
        pose = self.motion.pose
        middle = np.stack(
            (x + 0.0 * self._centre[2], 0.0 * x + 0.0 * self._centre[2], pose.centre[2])
        )
        moving = pose.velocity(0, middle, rolling)
        spin = rolling[3:6]
        return middle[2] + moving[1] / spin[0], spin[2] / spin[0]
