"""Laws of shade and light on faces: rays marched step by step as rival, pvlib as rival, mirrors, hand limits."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.geometry.shadows import horizon, sides_of, sky_view
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.sun.faces import faces_of
from pinfold.studies.sun.light import cloudless, light_on, lighting_of
from pinfold.studies.sun.positions import middles, standpoint, sun_at, sun_day
from pinfold.studies.sun.records import Standpoint
from pinfold.studies.sun.shade import incidence, lit_shares, sky_views
from pinfold.studies.weather.records import Element, Weather, WeatherKind
from small_plots import SQUARE, Plot

DEG = math.radians(1)
ROUND = np.radians(np.arange(2.5, 360, 5))
DENVER = '\nlatitude = "39.74 deg"\nlongitude = "-105.18 deg"\ntime_zone = "America/Denver"\nelevation = "1730 m"'


def plot(*, place=DENVER, neighbors="", **changes):
    """A small plot somewhere on earth."""
    text = Plot(**{"corners": SQUARE, "is_closed": True, **changes}).text()
    return lay_out(plan_of(text.replace("[place]", "[place]" + place) + neighbors))


def shed(name, x, y, wide, deep, height):
    """A neighbor by its corner."""
    ring = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
    points = ", ".join(f'["{px:.3f} m", "{py:.3f} m"]' for px, py in ring)
    return f'\n[[neighbor]]\nname = "{name}"\nheight = "{height:.3f} m"\nfootprint = [{points}]\n'


# ---- geometry

boxes = st.tuples(
    st.floats(-8, 8), st.floats(-8, 8), st.floats(0.3, 4), st.floats(0.3, 4), st.floats(0, math.pi), st.floats(0.2, 4)
)


def ring_of(box):
    x, y, wide, deep, turn, top = box
    cos, sin = math.cos(turn), math.sin(turn)
    return [
        (x + cos * a - sin * b, y + sin * a + cos * b, top)
        for a, b in ((-wide, -deep), (wide, -deep), (wide, deep), (-wide, deep))
    ]


def marched(point, way, altitude, some):
    """Whether a ray meets a box: looked at every centimeter."""
    along = np.arange(0.0, 40.0, 0.01)
    x, y = point[0] + along * math.sin(way), point[1] + along * math.cos(way)
    z = point[2] + along * math.tan(altitude)
    for bx, by, wide, deep, turn, top in some:
        cos, sin = math.cos(turn), math.sin(turn)
        a, b = cos * (x - bx) + sin * (y - by), -sin * (x - bx) + cos * (y - by)
        if ((np.abs(a) < wide) & (np.abs(b) < deep) & (z < top)).any():
            return True
    return False


def is_inside(point, box):
    x, y, wide, deep, turn, _ = box
    cos, sin = math.cos(turn), math.sin(turn)
    a, b = cos * (point[0] - x) + sin * (point[1] - y), -sin * (point[0] - x) + cos * (point[1] - y)
    return abs(a) < wide + 0.05 and abs(b) < deep + 0.05


@settings(max_examples=60, deadline=None)
@given(st.lists(boxes, min_size=1, max_size=3), st.floats(0, 2 * math.pi), st.floats(0.03, 1.4), st.floats(0, 1.5))
def test_marching_along_the_ray_meets_the_same_boxes(some, way, altitude, z):
    point = (0.0, 0.0, z)
    if any(is_inside(point, box) for box in some):
        return
    steep = float(horizon(np.array([point]), sides_of(ring_of(box) for box in some), np.array([way]))[0, 0])
    near = [horizon(np.array([point]), sides_of(ring_of(box) for box in some), np.array([way + off]))[0, 0]
            for off in (-0.01, 0.01)]  # fmt: skip
    if abs(steep - math.tan(altitude)) < 0.02 + 0.02 * steep or max(abs(steep - other) for other in near) > 0.2:
        return  # it grazes a top or an edge

    assert marched(point, way, altitude, some) == (math.tan(altitude) < steep)


def test_the_shadow_of_a_long_wall_ends_where_it_does_by_hand():
    wall = sides_of([[(-900, -0.2, 3.0), (900, -0.2, 3.0), (900, 0.0, 3.0), (-900, 0.0, 3.0)]])
    sun, altitude = np.array([194.34024051 * DEG]), (90 - 50.11162202) * DEG
    spots = np.array([[0.0, 3.4776 - 1e-3, 0.0], [0.0, 3.4776 + 1e-3, 0.0]])

    inside, outside = horizon(spots, wall, sun)[:, 0] > math.tan(altitude)

    assert inside
    assert not outside


def test_the_sky_over_an_even_rim_is_what_it_is_by_hand():
    rim = np.full((1, len(ROUND)), 1.0)  # 45 degrees all round

    assert sky_view(rim, ROUND, tilt=0.0, facing=0.0) == pytest.approx(0.5)
    assert sky_view(rim, ROUND, tilt=math.pi / 2, facing=1.0) == pytest.approx((math.pi / 8 - 0.25) / (math.pi / 4))
    assert sky_view(0 * rim, ROUND, tilt=0.7, facing=1.0) == pytest.approx(1.0)


def test_a_tall_wall_close_in_front_hides_what_two_facing_planes_hide():
    """Two endless parallel upright planes: the sky seen from a height below the top, by the crossed strings."""
    wall = sides_of([[(-2e4, 2.0, 3.0), (2e4, 2.0, 3.0), (2e4, 2.2, 3.0), (-2e4, 2.2, 3.0)]])
    fine = np.radians(np.arange(0.25, 360, 0.5))

    seen = sky_view(horizon(np.array([[0.0, 0.0, 1.0]]), wall, fine), fine, tilt=math.pi / 2, facing=0.0)

    assert seen == pytest.approx(1 - math.sin(math.atan(1.0)), abs=2e-3)


# ---- faces of a plot

NOON = datetime(2024, 3, 20, 19, 8, tzinfo=UTC)  # the sun stands highest near Denver


def days_sun(layout, middle=NOON, every=20, count=37):
    off = [timedelta(minutes=every * (number - count // 2)) for number in range(count)]
    return sun_at(standpoint(layout.plan.place), [middle + each for each in off])


def test_a_neighbor_never_brightens():
    bare, beside = plot(), plot(neighbors=shed("shed", 12, 2, 3, 5, 3) + shed("tank", 3, 4, 2, 2, 2.5))
    faces, sun = faces_of(bare), days_sun(bare)
    same = faces_of(beside)
    weather = cloudless(NOON.replace(hour=10, minute=0), 16, ZoneInfo("America/Denver"))

    assert np.all(lit_shares(beside, same, sun) <= lit_shares(bare, faces, sun) + 1e-12)
    assert (lit_shares(beside, same, sun) < lit_shares(bare, faces, sun)).any()
    assert np.all(sky_views(beside, same) <= sky_views(bare, faces) + 1e-12)
    light, shaded = (
        light_on(bare, faces, lighting_of(bare, weather)),
        light_on(beside, same, lighting_of(beside, weather)),
    )
    assert np.all(shaded.total <= light.total + 1e-9)


def test_nothing_shines_on_a_face_from_behind_and_nothing_at_night():
    layout = plot()
    faces = faces_of(layout)
    sun = days_sun(layout, every=60, count=24)
    lit = lit_shares(layout, faces, sun)

    for number, face in enumerate(faces):
        assert not lit[number, incidence(face, sun) <= 0].any()
    assert not lit[:, ~sun.is_up].any()
    assert lit.max() == pytest.approx(1)


def test_east_and_west_mirror_each_other_about_noon():
    layout = plot()
    faces = {face.name: face for face in faces_of(layout)}
    sun = days_sun(
        layout, middle=sun_day(standpoint(layout.plan.place), date(2024, 6, 20), UTC).noon, every=30, count=25
    )
    east, west = lit_shares(layout, [faces["s1/1 inner"], faces["s3/1 inner"]], sun)

    apart = np.arange(25) != 12  # at noon itself the sun goes along both

    assert east[apart] == pytest.approx(west[::-1][apart], abs=0.06)
    assert east.sum() > 5


def test_the_walls_of_a_narrow_plot_shade_each_other_low_and_not_high():
    layout = plot(corners=((0, 0), (20, 0), (20, 1.2), (0, 1.2)))
    inner = next(face for face in faces_of(layout) if face.name == "s2/1 inner")  # looks south at the wall before it
    sun = days_sun(layout, middle=NOON.replace(month=12), every=30, count=15)

    lit = lit_shares(layout, [inner], sun)[0]

    assert 0 < lit[7] < 0.8  # even at noon of a winter day the wall before it covers its foot
    gap = 1.2 - 0.19
    covered = 0.8 - gap * math.tan(sun.altitude[7]) / abs(math.cos(sun.azimuth[7] - math.pi))
    assert lit[7] == pytest.approx(1 - covered / 0.8, abs=0.2)
    assert lit_shares(layout, [inner], days_sun(layout, middle=NOON.replace(month=6)))[0].max() == pytest.approx(1)


def test_in_the_south_the_north_face_has_the_noon_sun():
    there = '\nlatitude = "-37.8 deg"\nlongitude = "145 deg"\ntime_zone = "Australia/Melbourne"'
    layout = plot(place=there)
    faces = {face.name: face for face in faces_of(layout)}
    noon = sun_day(standpoint(layout.plan.place), date(2024, 6, 20), ZoneInfo("Australia/Melbourne")).noon
    sun = sun_at(standpoint(layout.plan.place), [noon])

    north, south = lit_shares(layout, [faces["s2/1 outer"], faces["s0/1 outer"]], sun)

    assert (north[0], south[0]) == (pytest.approx(1), 0)
    assert sun.azimuth[0] == pytest.approx(0, abs=0.02) or sun.azimuth[0] == pytest.approx(2 * math.pi, abs=0.02)


def test_turning_the_plan_and_its_north_changes_nothing():
    level = plot()
    aslant = plot(place=DENVER + '\nnorth = "30 deg"', corners=turned_square(-30 * DEG))
    sun = days_sun(level)

    assert lit_shares(level, faces_of(level), sun) == pytest.approx(lit_shares(aslant, faces_of(aslant), sun), abs=0.1)
    for one, other in zip(faces_of(level), faces_of(aslant), strict=True):
        if one.is_upright:
            assert math.cos(one.facing - other.facing) == pytest.approx(1.0)


def turned_square(angle):
    cos, sin = math.cos(angle), math.sin(angle)
    return tuple((cos * x - sin * y, sin * x + cos * y) for x, y in SQUARE)


# ---- light


def weather_of(layout, start, **series):
    count = len(next(iter(series.values())))
    return Weather(
        kind=WeatherKind.MEASURED, says="made up", start=start, zone=ZoneInfo("America/Denver"),
        series={Element[name]: np.asarray(hours, dtype=float) for name, hours in series.items()},
        estimated={Element[name]: np.zeros(count, dtype=bool) for name in series},
    )  # fmt: skip


def test_an_overcast_sky_gives_an_upright_face_half_and_the_ground_a_tenth():
    layout = plot(corners=((0, 0), (8, 0)), is_closed=False)
    diffuse = np.array([0, 100, 200, 300, 200, 100, 0, 0.0])
    weather = weather_of(layout, NOON.replace(hour=15, minute=0), BEAM=0 * diffuse, DIFFUSE=diffuse, GLOBAL=diffuse)
    outer = faces_of(layout)[0]

    light = light_on(layout, [outer], lighting_of(layout, weather))

    assert light.sky[0] == pytest.approx(diffuse / 2)
    assert light.ground[0] == pytest.approx(0.2 * diffuse / 2)
    assert light.beam[0] == pytest.approx(0 * diffuse)
    assert not light.estimated.any()


def test_without_anything_in_the_way_it_is_pvlibs_own_light():
    from pvlib.irradiance import get_total_irradiance

    layout = plot(corners=((0, 0), (8, 0)), is_closed=False)
    weather = cloudless(datetime(2024, 6, 20, 6, tzinfo=UTC), 24, ZoneInfo("America/Denver"))
    lighting = lighting_of(layout, weather)
    faces = faces_of(layout)
    light = light_on(layout, faces, lighting)

    for number, face in enumerate(faces):
        theirs = get_total_irradiance(
            face.tilt / DEG, face.facing / DEG, 90 - lighting.sun.altitude / DEG, lighting.sun.azimuth / DEG,
            lighting.sky.beam, lighting.sky.level, lighting.sky.diffuse, dni_extra=lighting.sun.outside,
            model="haydavies", albedo=0.2,
        )["poa_global"]  # fmt: skip
        assert light.total[number] == pytest.approx(np.where(lighting.sun.altitude > 0, theirs, 0), abs=0.5)


def test_another_model_of_the_sky_gives_much_the_same_day():
    from pvlib.atmosphere import get_relative_airmass
    from pvlib.irradiance import perez

    layout = plot(corners=((0, 0), (8, 0)), is_closed=False)
    lighting = lighting_of(layout, cloudless(datetime(2024, 6, 20, 6, tzinfo=UTC), 24, ZoneInfo("America/Denver")))
    outer = faces_of(layout)[0]
    light = light_on(layout, [outer], lighting)
    zenith = 90 - lighting.sun.altitude / DEG
    sky = perez(90, outer.facing / DEG, lighting.sky.diffuse, lighting.sky.beam, lighting.sun.outside, zenith,
                lighting.sun.azimuth / DEG, get_relative_airmass(zenith))  # fmt: skip
    straight = lighting.sky.beam * np.maximum(incidence(outer, lighting.sun), 0)
    theirs = np.nan_to_num(sky).sum() + straight.sum() + light.ground.sum()

    assert light.total.sum() == pytest.approx(theirs, rel=0.15)  # it brightens the sky near the horizon too


def test_what_is_estimated_stays_marked_and_what_is_missing_is_dark_and_told():
    layout = plot()
    start = NOON.replace(hour=12, minute=0)
    known = np.full(12, 400.0)
    split = lighting_of(layout, weather_of(layout, start, GLOBAL=known))

    assert (split.sky.estimated == split.sun.is_up).all()
    assert any("split" in note for note in split.sky.notes)
    gap = np.where(np.arange(12) == 6, np.nan, 400.0)
    holed = light_on(layout, faces_of(layout), lighting_of(layout, weather_of(layout, start, BEAM=gap, DIFFUSE=gap)))
    assert holed.estimated[6]
    assert np.isfinite(holed.total).all()
    given_ = lighting_of(layout, weather_of(layout, start, BEAM=known, DIFFUSE=known, GLOBAL=known)).sky
    assert not given_.estimated.any()
    assert given_.notes == ()


# ---- the clock


def test_the_sun_of_an_hour_stands_at_its_middle():
    weather = cloudless(datetime(2024, 3, 20, 18, tzinfo=UTC), 2, ZoneInfo("America/Denver"))

    assert [moment.minute for moment in middles(weather)] == [30, 30]
    assert lighting_of(plot(), weather).sun.moments[0] == datetime(2024, 3, 20, 18, 30, tzinfo=UTC)


SPOTS = {
    "America/Denver": (39.74, -105.18), "Europe/Lisbon": (38.72, -9.14), "Asia/Kolkata": (12.97, 77.59),
    "Asia/Kathmandu": (27.7, 85.3), "Pacific/Kiritimati": (1.87, -157.4), "Australia/Adelaide": (-34.9, 138.6),
}  # fmt: skip


def spot(latitude, longitude):
    return Standpoint(latitude=latitude * DEG, longitude=longitude * DEG, elevation=0.0)


@pytest.mark.parametrize("zone", SPOTS)
def test_by_every_clock_the_sun_rises_and_sets_on_the_day_asked_for(zone):
    found = sun_day(spot(*SPOTS[zone]), date(2024, 3, 21), ZoneInfo(zone))

    assert found.rise.date() == found.noon.date() == found.set.date() == date(2024, 3, 21)
    assert found.rise < found.noon < found.set
    assert (found.set - found.rise).total_seconds() / 3600 == pytest.approx(12.1, abs=0.1)
    rise, noon, set_ = sun_at(spot(*SPOTS[zone]), [found.rise, found.noon, found.set]).altitude / DEG
    assert rise == pytest.approx(-0.4, abs=0.5)  # its middle is under the horizon when its edge shows
    assert set_ == pytest.approx(-0.4, abs=0.5)
    assert noon == pytest.approx(90 - abs(SPOTS[zone][0]), abs=1)


def test_daylight_saving_moves_the_clock_and_not_the_sun():
    denver, zone = spot(39.74, -105.18), ZoneInfo("America/Denver")
    before, after = sun_day(denver, date(2024, 3, 9), zone), sun_day(denver, date(2024, 3, 10), zone)

    assert (after.noon.hour - before.noon.hour) == 1
    assert (after.noon - before.noon.astimezone(UTC)).total_seconds() / 3600 == pytest.approx(24, abs=0.02)


def test_the_sun_of_the_far_north_neither_sets_nor_rises():
    tromso, zone = spot(69.65, 18.96), ZoneInfo("Europe/Oslo")
    summer, winter = sun_day(tromso, date(2024, 6, 21), zone), sun_day(tromso, date(2024, 12, 21), zone)

    assert (summer.always, summer.rise, summer.set) == ("up", None, None)
    assert (winter.always, winter.rise, winter.set) == ("down", None, None)
    assert summer.noon.date() == date(2024, 6, 21)


def test_bright_ground_throws_back_as_much_more_and_it_is_told():
    start = NOON.replace(hour=12, minute=0)
    level = np.full(12, 400.0)
    lights = []
    for place in (DENVER, DENVER + '\nalbedo = "60 %"'):
        layout = plot(place=place)
        weather = weather_of(layout, start, BEAM=0 * level, DIFFUSE=level, GLOBAL=level)
        lights.append(light_on(layout, faces_of(layout), lighting_of(layout, weather)))
    grass, sand = lights

    assert sand.ground == pytest.approx(3 * grass.ground)
    assert any("put your own under [place]" in note for note in grass.notes)
    assert any("60% of the light, as the plan says" in note for note in sand.notes)
