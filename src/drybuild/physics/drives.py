"""What drives a gearbox: an engine through a clutch or through a torque converter.

A `Drive` holds torque, engine speed and how that grows, against the speed of the gearbox input,
sampled evenly so that a look-up needs no search.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.sampled import look_up, resample

Array = npt.NDArray[np.float64]
Values = float | Array


@dataclass(frozen=True, kw_only=True)
class Drive:
    """What drives the gearbox; curves run along the first axis, samples along the last."""

    limit_speed: Array
    """Highest speed of the gearbox input. [rad/s]"""
    torque: Array
    """Torque into the gearbox at even steps of its input speed up to the limit. [N·m]"""
    spin: Array
    """How the engine's speed grows with that of the gearbox input; one row if alike at all. [-]"""
    engine_speed: Array
    """Speed of the engine. [rad/s]"""
    slip_speed: Array
    """Input speed below which the clutch slips in first gear; 0 with a converter. [rad/s]"""
    least_speed: Array
    """Input speed below which no other gear is used. [rad/s]"""
    drag_torque: Array
    """Torque that slows the engine while it is cut off during a shift. [N·m]"""

    @property
    def converts(self) -> bool:
        """Whether a converter lets the engine's speed grow unlike that of the input."""
        return len(self.spin) > 1

    def over_samples(self, samples: int) -> Drive:
        """Return it with every sample written out."""
        return Drive(
            **{
                name: np.broadcast_to(one, (*one.shape[:-1], samples))
                for name, one in vars(self).items()
            }
        )


def clutch_drive(
    *,
    limit_speed: Values,
    torque: Array,
    launch_speed: Values,
    idle_speed: Values,
    drag_torque: Values,
) -> Drive:
    """Return the drive of an engine through a friction clutch.

    Parameters
    ----------
    limit_speed : float or array
        Highest engine speed. [rad/s]
    torque : array
        Full-load torque at even steps from standstill to the limit. [N·m]
    launch_speed : float or array
        Engine speed held with a slipping clutch until the car has caught up. [rad/s]
    idle_speed : float or array
        Lowest speed that the engine pulls from. [rad/s]
    drag_torque : float or array
        Torque that slows the engine while the clutch is out and the throttle shut. [N·m]

    Returns
    -------
    Drive
        Torque at the gearbox input, and the engine's speed. [N·m]

    Notes
    -----
    While the clutch slips the engine keeps its speed, so its inertia takes nothing.

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 5. From memory.

    """
    limit = np.atleast_1d(np.asarray(limit_speed, dtype=np.float64))
    require(limit > 0.0, "limit_speed", limit, "rad/s", "more than zero")
    require(np.less(launch_speed, limit), "launch_speed", launch_speed, "rad/s", "below the limit")
    share = np.linspace(0.0, 1.0, len(torque))[:, None]
    return Drive(
        limit_speed=limit,
        torque=torque,
        spin=np.ones((1, 1)),
        engine_speed=share * limit,
        slip_speed=np.atleast_1d(np.asarray(launch_speed, dtype=np.float64)),
        least_speed=np.atleast_1d(np.asarray(idle_speed, dtype=np.float64)),
        drag_torque=np.atleast_1d(np.asarray(drag_torque, dtype=np.float64)),
    )


def converter_drive(
    *,
    limit_speed: Values,
    torque: Array,
    stall_speed: Values,
    stall_torque_ratio: Values,
    coupling_ratio: Values,
) -> Drive:
    """Return the drive of an engine through a hydrodynamic torque converter.

    Parameters
    ----------
    limit_speed : float or array
        Highest engine speed. [rad/s]
    torque : array
        Full-load torque at even steps from standstill to the limit. [N·m]
    stall_speed : float or array
        Engine speed at full load with the turbine held. [rad/s]
    stall_torque_ratio : float or array
        Turbine torque over engine torque with the turbine held. [-]
    coupling_ratio : float or array
        Speed ratio at which the stator lets go and the torque ratio is one. [-]

    Returns
    -------
    Drive
        Torque at the gearbox input, and the engine's speed. [N·m]

    Notes
    -----
    Impeller torque C(s) ω². C is constant up to the coupling ratio s_k and falls to nothing at
    s = 1 as C_0 (1 − s)/(1 − s_k); the torque ratio falls in a straight line to one at s_k. So the
    engine holds its stall speed until the turbine has s_k of it; beyond, T(ω) = C ω² gives
    s = 1 − (1 − s_k) T/(C_0 ω²). A real engine's speed creeps up by some 20 % before coupling.
    The turbine feels the engine's inertia I as I dω/dω_t.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 3, torque converters. From memory.
    .. [2] Bosch, "Automotive Handbook", hydrodynamic converter. From memory.

    """
    limit = np.atleast_1d(np.asarray(limit_speed, dtype=np.float64))
    stall = np.atleast_1d(np.asarray(stall_speed, dtype=np.float64))
    require(np.less(stall, limit), "stall_speed", stall, "rad/s", "below the limit")
    gain = np.asarray(stall_torque_ratio)
    require(np.greater_equal(gain, 1.0), "stall_torque_ratio", gain, "-", "one or more")
    inside = np.greater(coupling_ratio, 0.0) & np.less(coupling_ratio, 1.0)
    require(inside, "coupling_ratio", coupling_ratio, "-", "between nothing and one")
    even = np.linspace(0.0, 1.0, len(torque))[:, None] * limit
    stall_torque = look_up(table=torque, share=(stall / limit)[None, :])[0]
    beyond = np.maximum(even, stall)
    load = np.where(even > stall, torque, stall_torque) / np.square(beyond)
    slip = (1.0 - coupling_ratio) * load / (stall_torque / np.square(stall))
    turbine = np.maximum.accumulate((1.0 - np.clip(slip, 0.0, 1.0)) * beyond, axis=0)
    coupled = coupling_ratio * stall
    engine = np.where(even < coupled, stall, resample(even=even, along=turbine, values=beyond))
    multiplied = gain - (gain - 1.0) * np.clip(even / coupled, 0.0, 1.0)
    slope = np.gradient(engine, axis=0) / (limit / (len(torque) - 1))
    return Drive(
        limit_speed=limit,
        torque=look_up(table=torque, share=engine / limit) * multiplied,
        spin=np.clip(slope, 0.0, 1.5),
        engine_speed=engine,
        slip_speed=np.zeros_like(limit),
        least_speed=np.zeros_like(limit),
        drag_torque=np.zeros_like(limit),
    )
