"""Posts held in a socket of masonry or concrete: pressure on its two faces, and the cone that may break out of one."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Pascal, SquareMeter


@dataclass(frozen=True, kw_only=True)
class SocketGrip:
    """The pair of forces that hold a stiff post in its socket.

    Attributes:
        top: pressure at the mouth of the socket, on the face the post is pushed against.
        bottom: pressure at its foot, on the other face.
        turning: depth of the level where it presses on neither.
        upper: force on the face at the mouth.
        lower: force on the other face at the foot.
    """

    top: Pascal
    bottom: Pascal
    turning: Meter
    upper: Newton
    lower: Newton


def socket_grip(*, force: Newton, moment: NewtonMeter, depth: Meter, width: Meter) -> SocketGrip:
    """Forces that hold a stiff post in a socket: p1 = (4 P + 6 M / d) / (b d), p2 = (2 P + 6 M / d) / (b d).

    The post turns as one piece about a level in the socket, and the pressure grows evenly away from it both ways.

    Args:
        force: P, level force on the post above the mouth [N]
        moment: M, its moment at the mouth [N m]
        depth: d, depth of the socket that holds [m]
        width: b, width of the post that presses [m]

    Returns:
        pressures at mouth and foot, level of turning, and both forces (see SocketGrip)

    Raises:
        OutOfRangeError: force or moment is below 0, or depth or width not above 0.

    Range:
        P, M ≥ 0; d, b > 0; refused outside. Stiff post, filling without gaps; cling to the filling is left out.

    Source:
        STATICS (derived)

    Notes:
        A post pushed at the mouth itself (M = 0) presses twice as hard at the mouth as at the foot.

    Example:
        >>> socket_grip(force=600.0, moment=300.0, depth=0.6, width=0.05)
        SocketGrip(top=180000, bottom=140000, turning=0.3375, upper=1518.75, lower=918.75)
    """
    deep = within(depth, "depth of the socket in m", above=0.0)
    area = within(width, "width of the post in m", above=0.0) * deep
    couple = 6 * within(moment, "moment in N m", low=0.0) / deep
    top = (4 * within(force, "force in N", low=0.0) + couple) / area
    bottom = (2 * force + couple) / area
    turning = deep * top / (top + bottom) if top > 0 else deep
    upper = top * width * turning / 2
    return SocketGrip(top=top, bottom=bottom, turning=turning, upper=upper, lower=upper - force)


def face_cone(*, width: Meter, cover: Meter) -> SquareMeter:
    """Area of the piece that a post at the top of a wall may push out of a face: A = π c² / 2 + b c.

    Half a cone at 45° from the wall's top, and a wedge as wide as the post between its halves.

    Args:
        width: b, width of the post that presses; 0 for a bolt [m]
        cover: c, masonry between the post and the face [m]

    Returns:
        A, area projected on the face [m2]

    Raises:
        OutOfRangeError: the width is below 0 or the cover not above 0.

    Range:
        b ≥ 0, c > 0; refused outside. Depth of the pressed part is not counted in favor.

    Source:
        TMS-402-13, 6.2.3, π c² / 2 for a bolt at an edge (memory)
        STATICS, the wedge (derived)

    Example:
        >>> face_cone(width=0.06, cover=0.1)
        0.0217
    """
    edge = within(cover, "cover in m", above=0.0)
    return math.pi * edge**2 / 2 + within(width, "width of the post in m", low=0.0) * edge
