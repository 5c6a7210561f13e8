"""The proof ledger: what stands behind each formula of the catalog.

Two kinds of proof are wanted of every formula: a printed value (a Row that names it), and a property, rival or hand
limit (a call in tests/properties or tests/unit). Where no printed value was found, WITHOUT_PRINT says why.
"""

from __future__ import annotations

import ast
from collections import Counter
from functools import cache
from pathlib import Path

import validation

ROOT = Path(__file__).parents[1]
FOLDERS = ("properties", "unit")


def rows_by_formula() -> Counter[str]:
    """How many rows name each formula, counted as evidence or not."""
    return Counter(row.formula for _, row in validation.all_rows() if row.formula)


@cache
def called_in_laws() -> frozenset[str]:
    """Formulas, `module.function`, that some property or unit test names in its code."""
    found: set[str] = set()
    for folder in FOLDERS:
        for path in sorted((ROOT / "tests" / folder).glob("test_*.py")):
            found |= _named_in(ast.parse(path.read_text(encoding="utf-8")))
    return frozenset(found)


def _named_in(tree: ast.Module) -> set[str]:
    modules, found = {}, set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module == "pinfold.formulas":
            modules |= {alias.asname or alias.name: alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("pinfold.formulas."):
            found |= {f"{str(node.module).rpartition('.')[2]}.{alias.name}" for alias in node.names}
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in modules:
            found.add(f"{modules[node.value.id]}.{node.attr}")
    return found


_STATICS = "plain statics, for which no printed example was found; "
_SHAPE = "geometry of the section, for which no printed value was found; "
_FOAM = "absolute volume, no printed example with foam that weighs something was found; "
WITHOUT_PRINT: dict[str, str] = {
    "batch_size.batch_before_set": "what is made is what is used up: algebra; held by every card",
    "batch_size.charge_by_lifts": "guidance prints its parts, no whole charge; held by every card",
    "batch_size.drum_batch": "a share of the drum, which makers print between half and four fifths; held by every card",
    "batch_size.workable_time": "scaled by the table of setting times; a code's step at 25 °C lies amid it",
    "anchors.anchor_pull": _STATICS + "balances the moment",
    "anchors.anchor_steel_held": "a share of the yield force, remembered, no example of it was read; in proportion",
    "anchors.anchor_use": "a sum of two shares, remembered, no example of it was read; adds up as its parts do",
    "anchors.bent_anchor_held": "remembered, no worked example was read; its two limits by hand",
    "anchors.crushing_held": "remembered, no worked example was read; its power law",
    "anchors.overlap_area": "geometry of two circles; counted strip by strip",
    "bed_shear.shear_by_en1996": "remembered, no worked example was read; friction alone, growth and its cap",
    "bed_shear.shear_by_tms402": "remembered, no worked example was read; each limit governs somewhere, weight never lessens it",
    "bed_shear.shear_in_reinforced": "the equation was read without an example; force over area",
    "bed_shear.shear_stress": _STATICS + "shear over a rectangle by integration",
    "bodies.compression_by_aci318": "the equation turned round, no value of it was read; there and back by hand",
    "bodies.compression_by_share": "a share of common practice, nothing printed; by hand",
    "bodies.crushed_area": "areas, nothing printed; by hand",
    "bodies.crushing_strength": "force over area, nothing printed; by hand",
    "bodies.hanging_force": "standard gravity by definition; by hand",
    "bodies.unit_shape_factor": "the table is remembered, not read; a flatter block shows more, 1 for the cube it is told in",
    "blocks.grip_on_blocks": _STATICS + "falls to the ties alone where the roof lifts all of the weight",
    "blocks.holding_moment": _STATICS + "half of the weight on each row",
    "blocks.lift_on_roof": "a pressure times an area",
    "blocks.pier_load": _STATICS + "all piers of both rows together carry the load",
    "blocks.tipping_moment": _STATICS + "the sum of the strips of side and roof",
    "blocks.wind_on_box": "a pressure times an area; the sum of its strips",
    "creep.crept": "the factor was read, no worked movement; nothing at 0, in proportion",
    "creep.shortened": "Hooke's law; in proportion, undone by a stiffer bar",
    "creep.slip_modulus": "remembered, no worked example was read; its power law",
    "gates.diagonal_gap": _STATICS + "two distances between corners",
    "gates.latch_drop": _STATICS + "the drop of a leaf whose diagonal is measured before and after",
    "gates.skin_screw_force": _STATICS + "screws along the stile together carry the weight",
    "gates.take_up": _STATICS + "undoes latch_drop",
    "screws.pulled_and_pushed": "a straight line between two limits; never under the standard's curve",
    "sheet_screws.shear_and_pull_over": "the equation was read without an example; each alone by hand",
    "concrete_mix.largest_stone": "a rule of three shares without a printed example; each share tested by itself",
    "concrete_mix.target_strength_by_records": "read as a formula only, no example of it was found; both branches tested",
    "corners.bending_held": _STATICS + "the pulled face is used up to the last",
    "corners.corner_twist": _STATICS + "the plate's own field balances pressure, edges and corner force",
    "corners.moment_around": "a product; what goes around and what stays is all of it",
    "corners.moment_with_corner": _STATICS + "the best over all shares, by search",
    "corners.return_moment": _STATICS + "never more than a stiff body tipped over every edge of its hull",
    "corners.return_reach": _STATICS + "tension and shear of what hangs, by integration",
    "corners.share_around_corner": _STATICS + "Johansen's criterion over the whole height, by search",
    "corners.share_by_shear": _STATICS + "shear at the faces of a twisted plate by integration",
    "corrections.batches_held": "a ratio by definition; what is added comes back to the proportions",
    "corrections.foam_lost": _FOAM + "the inverse of mixing with a known loss",
    "corrections.foam_to_add": _FOAM + "weighed again after it, the mix has the density wanted",
    "corrections.pail_filled": "geometry of a cone without its tip; slice by slice",
    "corrections.part_to_add": "a difference; what is added comes back to the proportions",
    "corrections.slurry_to_add": _FOAM + "weighed again after it, the mix has the density wanted",
    "corrections.water_share_for_slump": "read as a rule of 3 % an inch, no worked example was found; in proportion",
    "counts.bags_of_mix": "no printed order of bags was found; whole bags hold the volume and the last is needed",
    "counts.bed_reinforcement": "read as a rule, no worked example was found; tested against lengths of courses",
    "counts.dry_stone_mass": "common practice, nothing printed; agrees within 5 % with volume less gaps",
    "counts.dry_stone_volume": "geometry of a battered wall; the printed sizes give no printed volume; tested against mass",
    "counts.whole_bags": "rounding up; holds the mass and the last bag is needed",
    "cracking.base_yielding": "remembered, no printed value was found; whole for no wall, less for a stiffer one",
    "cracking.crack_width": "a product, nothing printed; twice the panel is twice the crack",
    "cracking.drying_size": "geometry of a wall; the block without ends as rival",
    "cracking.panel_by_restraint": "the restraint turned round; its inverse",
    "cracking.restraint_by_aci207": "remembered, no value of it was found printed; a share, never less for a longer panel",
    "cracking.share_dried_by_aci209": "the equation was read, no share of it was; goes on and never past its end",
    "cracking.shrinkage_left": "a share by definition; what dried and what is left are the whole",
    "cracking.unit_drying_size": "geometry of a block; the endless wall as limit",
    "earth_mixes.linear_shrinkage": "a ratio by definition, no printed example; the whole box is one, no gap is none",
    "earth_mixes.sand_against_shrinkage": "common practice, nothing printed; with that sand the clay's share brings the shrinkage allowed",
    "earth_mixes.sand_to_thin_clay": "a balance of clay; soil and sand together hold the share wanted",
    "earth_mixes.soil_for_cement_share": "a ratio of masses; the parts weighed give the share back",
    "earth.level_part": "a component of a force; with its leaning part it gives the whole back",
    "earth.soaked_density": "a difference; soaked earth and water together weigh what was put in",
    "earth.surcharge_thrust": _STATICS + "a layer of earth of that weight pushes the same",
    "earth.water_thrust": _STATICS + "earth that pushes with its whole weight pushes as water of its density",
    "foam.cast_for_dry": _FOAM + "the inverse of foamed_mix and dry_density",
    "foam.dry_density": "read as a note, no printed example was found; 100 to 300 kg/m3 below cast for every shipped mix",
    "foam.foam_for_slurry": _FOAM + "the inverse of foamed_density",
    "foam.foam_share": _FOAM + "the printed half is a rule of thumb and 4 % low, as a trap test shows",
    "foam.foam_time": "the printed 166.2 s is a slip for 166.7, as a trap test shows",
    "foam.foam_to_make": "a share made up; what is lost leaves what is needed",
    "foam.foamed_density": _FOAM + "more foam is never heavier; inverse of foam_for_slurry",
    "foam.slurry_density": _FOAM + "mass and volume close for every shipped mix",
    "footings.largest_rise": "read as a rule, no worked example was found; three quarters of the run",
    "footings.least_width": "read as a rule, no worked example was found; tested against it",
    "footings.plain_tension": "read as an equation, no example of it was found; grows with the root of the strength",
    "footings.projection_moment": _STATICS + "integral over the ledge, and the printed equation of both ledges",
    "footings.step_overlap": "read as a table of rules without an example; each rule tested by itself",
    "footings.thickness_by_bending": "read as an equation, no example of it was found; the strip is used up to the last",
    "footings.thickness_by_en1992": "read as an equation, no example of it was found; against bending at the face",
    "footings.thickness_by_rule": "read as a rule; the printed sizes are tested beside the rows",
    "frost.surface_index": "a product; the table of factors is read",
    "gates.brace_angle": "an angle of a triangle; tested by hand",
    "gates.brace_force": _STATICS + "joint equilibrium",
    "gates.hinge_couple": "the printed problem was read without its answer (remembered: 225 N); moments about the other hinge",
    "gates.hinge_force": "the printed problem was read without its answer (remembered: 375 N); right triangle of forces",
    "gates.post_moment": _STATICS + "balance and limit laws",
    "learning.coat_use": "a ratio by definition; a coat used up to the last gives its volume back",
    "learning.forgetting": "a half-life by definition; halves with each, multiplies over spans",
    "learning.loose_density": "mass over volume; the bucket filled with the density found weighs what was weighed",
    "learning.pooled_spread": "no example of it was found printed with its data; the pooled t test of scipy as rival",
    "learning.spread_by_deviation": "a constant of the normal distribution; scipy's quantile and its median deviation as rivals",
    "learning.tail_weight": "remembered, no printed weight was found; the slope of scipy's t density as rival",
    "learning.taught_yield": "a product; inverse of yield_ratio",
    "learning.time_each": "a ratio by definition; twice the people for half the time is the same",
    "learning.yield_ratio": "a ratio by definition; inverse of taught_yield",
    "measures.filled_share": "two cones compared; a straight one is filled as high as it stands",
    "measures.scale_factor": "a line through two points; undoes a scale made up",
    "measures.true_mass": "a line through two points; undoes a scale made up",
    "measures.voids": "no worked example was read; grains and gaps make the whole",
    "heat_stress.unused_margin_c": "a difference of two equations that were read; is that difference",
    "heat_stress.wbgt_limit_c": "both equations were read, no value of them is printed; whoever is not used to it bears less",
    "maturity.age_by_arrhenius": "no worked example was readable; a constant warmth, never less where warmer, values derived from"
    " the equation",
    "maturity.age_by_nurse_saul": "the printed degree hours at two warmths; a constant warmth, never less where warmer",
    "masonry.flexural_tension_allowed": "the table is remembered, not read; standing memory is shown with every use; order of"
    " its rows tested",
    "masonry.height_by_weight": _STATICS
    + "gives the wanted factor against tipping; meets the brick rule at one density",
    "masonry.moment_by_bs5628": "the clause was read without a worked example; the joint is used up to the last",
    "masonry.moment_by_en1996": "remembered, no worked example was read; the joint is used up to the last",
    "mesh.mesh_pressure": "a product, nothing printed; in proportion to solidity, refused for a close mesh",
    "mesh.mesh_solidity": "geometry of two sets of wires, nothing printed; a share, never over the sum of its wires",
    "mesh.reynolds_number": "a definition; leads the rival drag equations where the table of open signs lies above them",
    "mesh.square_mesh_solidity": "geometry of a square mesh, nothing printed; tested against the drawn area",
    "mesh.wire_drag_by_hy722": "the equation was read, no value of it is printed; tested against the rival drag equation",
    "mesh.wire_drag_by_viscous_flow": "half read, half remembered, no value of it is printed; tested against the rival",
    "mixes.filling_water": "absolute volume the other way round; with it the mix makes what the rule says",
    "mixes.gaps": "a difference; grains and gaps together are the loose volume",
    "mixes.mixed_volume": "absolute volume; the printed mixes are closed by their sand, so their sum proves nothing; balances",
    "mixes.order_volume": "the manual prints 21 yd3 for 21.49, short; a trap test holds ours to 22",
    "pier_sections.pier_section": _SHAPE + "strips",
    "pier_sections.working_length": "remembered, no example was read; never more wall than stands between two piers",
    "plaster.richness": "a ratio by definition, no printed example; more sand is leaner, none is neat",
    "plaster.sand_per_binder": "a ratio by definition, no printed example; every shipped coat within the printed limits",
    "sockets.face_cone": "the half cone is remembered, the wedge is geometry; both by themselves",
    "sockets.socket_grip": _STATICS + "force and moment balanced by integration",
    "trials.chance_better": "the normal distribution itself, no printed example; many draws",
    "wires.loads_together": _STATICS + "Pythagoras",
    "wires.pull_at_sag": "the printed sag turned round; inverse of wire_sag",
    "wires.wire_stiffness": "a product, nothing printed; the held bar",
    "wood.timber_size_factor": "remembered, no example past a foot was read; 1 up to a foot and its power",
    "braces.corner_brace": _STATICS + "joint equilibrium",
    "braces.skin_friction": "remembered, a share with a cap, no example read; never past either",
    "braces.uplift_held": _STATICS + "weight and skin by themselves",
    "cantilevers.ground_lean": "geometry of a stiff post; similar triangles",
    "cantilevers.shear_stress": _STATICS + "first moments of rectangle and round by integration",
    "cantilevers.span_moment": _STATICS + "balance of half the rail",
    "cantilevers.span_sag": _STATICS + "work of a unit load",
    "cantilevers.tip_deflection": _STATICS + "its curvature integrated twice",
    "embedment.depth_constrained_once": "the equation was read without an example; root of depth_constrained",
    "embedment.depth_nonconstrained": "printed sheets stop after one trial (that trial is a row); a root search on the equation",
    "embedment.force_held_nonconstrained": "the equation turned round; inverse of the depth",
    "fence_loads.force_together": _STATICS + "adds up as its parts do",
    "embedment.lateral_rate": "doubling as the code allows, no example read; doubled against not",
    "embedment.moment_held_constrained": "the equation turned round; inverse of the depth",
    "fence_loads.moment_together": _STATICS + "adds up as its parts do",
    "post_sections.round_modulus": _SHAPE + "strips",
    "fence_loads.wire_moment": _STATICS + "balance and limit laws",
    "sand.dry_mass": "a product; true volume times density",
    "skins.cracking_moment": "the stress turned round; at that moment the stress is the strength",
    "skins.drying_tension": "elasticity of a held layer, nothing printed; balances the core it presses",
    "skins.edge_shear": "shear lag without a printed example; scipy on its equation, and the sum of the shear",
    "skins.mesh_area": "a share of the steel by definition; a square mesh by hand",
    "skins.meshed_moment": _STATICS + "balance of pull, weight and what is pressed",
    "skins.shear_between": "no printed example with layers was found; adds up to the shear, meets sandwich theory",
    "earthquakes.component_force_en": "remembered, no printed example was found; the ground's own share of a stiff wall, 2.5 in time with it",
    "earthquakes.weight_share": "remembered, no printed example was read; none left where the ground drops as fast as the weight",
    "green_walls.brace_reaction": _STATICS + "moments about the bed by strips of the wind",
    "green_walls.standing_speed": _STATICS + "in that wind the unbraced height is the wall's own",
    "green_walls.keep_out_width": "read as a rule, height and four feet, without an example; a sum",
    "green_walls.season_speed": "a product of remembered shares; tested as one",
    "orography.effective_length": "table read, no worked example was found; never shorter than the slope, H/0.3 where steep",
    "orography.orography_factor": "equations read in public transcriptions, no worked example was found; level land, both bounds of"
    " the slope, and the American factor of the same ridge",
    "orography.orography_location": "equations read in public transcriptions, no worked example was found; near 1 at the crest as the"
    " figures draw it, without a jump there, nothing far off",
    "orography.slope_length": "geometry of a straight slope",
    "pushes.rail_push_moment": _STATICS + "twice that of the same push spread evenly, and balance of half the rail",
    "pushes.rail_share": _STATICS + "both shares and their moments add up to the push",
    "pushes.foothold_push": "friction under the feet, nothing printed was found; a block that just slides on a slope",
    "pushes.spread_push": "common practice of a spread at 45°, nothing printed; a long panel bends by the push itself",
    "skins.skin_restraint": "elasticity of a held layer, nothing printed; balances the core it presses",
    "steel.hook_length": "no value of it was found printed; a case worked by hand, limits and growth",
    "steel.steel_per_length": "a product; sum of the bars",
    "steel.thermal_force": "elasticity, nothing printed; stress times area",
    "wall_levels.crushing_load": "remembered, no printed example was read; an even block that balances the load",
    "wall_levels.moment_above": _STATICS + "the sum of its strips",
    "wall_levels.thickness_at": "geometry of a wall that leans in; its ends and its mean",
    "wall_spans.panel_coefficient": "the standard's table is remembered, not read, and met to 0.0015; a search over both yield patterns",
    "strength_age.age_by_aci209": "the curve is remembered, no value of it was read; inverse of the share",
    "strength_age.share_by_aci209": "remembered, no value of it was read; 1030 crushed bodies, the European curve, a rule of"
    " the trade",
    "strength_mix.porosity": "absolute volume, nothing printed; none in a solid body",
    "strength_mix.strength_by_abrams": "the law was read without an example; meets the rows of the table within 2.4 %",
    "strength_mix.strength_by_cement_share": "common practice, nothing printed; in proportion",
    "strength_mix.strength_by_dry_density": "the table is remembered, only its ends were seen confirmed; its order, and the rival law",
    "strength_mix.strength_by_feret": "the law is remembered; fitted to the four types of mortar and meets them within 11 %",
    "strength_mix.strength_by_kearsley": "remembered, no value of it was read; less for more pores, rival of the table",
    "strength_mix.strength_off_middle": "algebra of the lognormal distribution; both ends as many times off the middle",
    "drying.air_density": "an ideal gas, no value of it was read; dry air at 20 °C, lighter when moist",
    "drying.conductivity_by_density": "remembered, no value of it was read; between air and stone, more for heavier",
    "drying.convection_by_mcadams": "remembered, no value of it was read; over the measured band as it should be",
    "drying.convection_by_side": "the lines were read without an example; the band measured on a wall out of doors",
    "drying.evaporation_by_penman": "remembered, no example of a wet wall was read; the full balance, and the printed hour's"
    " equation for wet grass within 2 %",
    "drying.evaporation_from_wall": "textbook statements were read, their printed answers not; a wet face settles near the"
    " wet bulb",
    "drying.heat_into_wall": "a sum of heats, nothing printed; a wet face settles near the wet bulb, and what goes in is"
    " stored",
    "drying.heat_of_vapor": "remembered, no value of it was read; falls with warmth, and the wet bulb comes out by it",
    "drying.long_wave_gain": "textbook radiation, nothing printed; none among things of one temperature",
    "drying.vapor_transfer": "textbook statements were read, their printed answers not; a wet face settles near the wet bulb",
    "drying.water_drawn_in": "remembered, a rule of the root of time; twice as much in four times as long",
    "walls.equilibrium_use": "factors are remembered (EN 1990); the overturning factor turned round",
    "walls.layer_weight": _STATICS + "a layer weighs what its parts weigh",
    "walls.line_load_moment": _STATICS + "the sum of its strips",
    "walls.panel_load": _STATICS + "balance and limit laws",
    "walls.resisting_moment": _STATICS + "is 1 just where the ground pressure ends",
    "walls.slenderness": "a ratio by definition",
    "walls.sliding_factor": _STATICS + "a heavier wall never slides sooner",
    "walls.sliding_resistance": _STATICS + "a heavier wall never slides sooner; cling capped at half the weight",
    "walls.solid_inertia": _SHAPE + "strips",
    "walls.solid_modulus": _SHAPE + "strips",
    "walls.wind_force": _STATICS + "the sum of its strips",
    "walls.wind_moment": _STATICS + "the sum of its strips",
    "wind.elevation_factor": "the equation was read, no value of it is printed; still air of fifteen degrees",
    "wind.lattice_pressure": "the equation was read without a worked example; a wall of the solid area alone",
    "wind.openings_factor": "the equation was read without a worked example; more openings never add",
    "wind.topographic_factor": "no worked example was found (K1 alone has rows); never shelters, at most trebles, falls away from the crest",
    "wind_en.net_pressure": "a product, nothing printed; tested as one",
    "wind_en.net_pressure_coefficient_at": "picks the zone of a coefficient that has rows; zones in order along the wall",
    "richness.gaps_filled": "read as a sentence on lean mortar, no value of it is printed; paste that fills the gaps swells nothing",
    "richness.shrinkage_by_pickett": "remembered, no printed value was read; grains alone, paste alone, and its rival by water",
    "richness.shrinkage_by_water": "read as a law in an abstract, its values are in the paper; in proportion, beside its rival",
    "richness.stress_left": "remembered, no printed value was read; the known mix keeps its own, stronger keeps more",
    "richness.water_at_same_flow": "a ratio of two waters by parts, which have a row; there and back",
    "sunlight.ground_on_plane": "geometry of a plane over endless ground; half of what is thrown back where it is upright",
    "sunlight.shadow_length": "the printed shadow is cut short, not rounded; by hand",
    "sunlight.shadow_of_wall": "geometry; worked by hand at the printed moment",
    "sunlight.sky_on_plane": "geometry of a plane under an even sky; half of it upright, front and back see all",
    "stiffness.tension_by_aci318": "read as an equation, no example of it was found; within a fifth of EN 1992's printed tension",
    "storms.chance_of_failure": "algebra of two normal variables; equals the distribution's own",
    "storms.gust_at": "rule of three; the basic period gives the basic speed",
    "storms.gust_factor_by_asce7": "remembered, no table was found; equals the Gumbel law and the rule by period",
    "storms.leaning_moment": _STATICS + "half the height times the lean",
    "wind_en.return_period_factor": "the equation was read, no value of it is printed; is 1 at fifty years and grows",
    "sky.share_of_clear_sun": "remembered, no value of it was read; a whole sky lets a quarter through, more cloud never more",
    "weather_year.rain_scale": "the method of moments, algebra; mean and deviation given back",
    "weather_year.rain_shape": "the method of moments, algebra; mean and deviation given back",
    "weather_year.share_of_wet_days": "algebra of a chain of two states; kept by a step of it",
}
"""Formulas that no printed value vouches for, with the reason and what is tested instead."""
