"""Small plans on whose standing tests ask: a line of wall or fence in the words of a plan file."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess

US = 'wind_speed = "40 m/s"\nexposure = "C"\nwind_edition = "7-16"\n'
EU = 'wind_speed = "25 m/s"\nexposure = "II"\n'
GROUND = 'soil = "sand"\nfrost_depth = "30 cm"\n'

BRICK = """
[buildup.run.footing]
kind = "strip-concrete"
width = "{footing}"
thickness = "20 cm"
below_ground = "40 cm"
[buildup.run.wall]
kind = "brick-double"
height = "{height}"
thickness = "20 cm"
density = "2000 kg/m3"
{more}
"""

FENCE = """
[buildup.run.posts]
kind = "{post}"
spacing = "2 m"
height = "1.5 m"
setting = "{setting}"
embed = "{embed}"
{more}
[buildup.run.mesh]
kind = "welded-2x4-14ga"
height = "1.5 m"
wire = "2.5 mm"
opening_wide = "50 mm"
opening_high = "50 mm"
{mesh}
"""


def brick(footing="60 cm", height="1 m", more=""):
    return BRICK.format(footing=footing, height=height, more=more)


def fence(post="wood-round-4", setting="ground", embed="90 cm", more='width = "100 mm"', mesh=""):
    return FENCE.format(post=post, setting=setting, embed=embed, more=more, mesh=mesh)


def plan(*args, **more):
    return plan_of(plan_text(*args, **more))


def plan_text(buildup, place=US + GROUND, family="us", length="10 m", rest=""):
    return f"""
format = 1
name = "Test"
units = "metric"
family = "{family}"
paper = "a4"
[place]
{place}
[[corner]]
name = "A"
x = "0 m"
y = "0 m"
[[corner]]
name = "B"
x = "{length}"
y = "0 m"
[[side]]
name = "line"
from = "A"
to = "B"
buildup = "run"
{rest}
[buildup.run]
says = "a test"
{buildup}
"""


def findings(*args, **more) -> tuple[Finding, ...]:
    return assess(lay_out(plan(*args, **more)))


def one(found: tuple[Finding, ...], check: str, subject: str = "") -> Finding:
    fits = [finding for finding in found if finding.check == check and subject in finding.subject]
    assert len(fits) == 1, [(finding.check, finding.subject) for finding in found]
    return fits[0]


def step(finding: Finding, formula: str) -> float:
    return next(line.number for line in finding.working if line.formula == formula)


GATE = """
[[gate]]
name = "small"
side = "line"
at = "3 m"
width = "1 m"
height = "1.2 m"
hinges = "left"
kind = "steel-frame-mesh"
post = "wood-4x4"
embed = "90 cm"
{more}
"""
