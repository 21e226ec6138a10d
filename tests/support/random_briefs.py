"""Briefs as a maker may type them: text drawn from a seed, over bodies, cloths, laces, uses, styles and finishes."""

from __future__ import annotations

from random import Random

#: What one millimetre is in each unit of a brief, as text with so many decimals.
_UNITS = {"mm": (1.0, 1), "cm": (10.0, 2), "in": (25.4, 3)}
_SHAPES = ("brief", "hipster", "bikini", "high leg", "tanga", "thong")


def random_brief(seed: int) -> str:
    """A brief that can be read; whether its design passes is left to the checks."""
    pick = Random(seed)
    units = pick.choice(list(_UNITS))

    def size(mm: float) -> str:
        one, decimals = _UNITS[units]
        given = f"{mm / one:.{decimals}f}"
        return pick.choice([given, f'"{mm:.1f} mm"', f'"{mm / 25.4:.3f} in"'])

    parts = [f'title = "Brief {seed}"\nunits = "{units}"\n', _wearer(pick, size), _lace(pick, size)]
    parts += [_cloths(pick, size), _rest(pick, size), _open_side(pick, size)]
    return "\n".join(parts)


def _wearer(pick: Random, size) -> str:
    waist = pick.uniform(560.0, 1150.0)
    hip = waist * pick.uniform(1.05, 1.5)
    rows = [f"waist = {size(waist)}", f"hip = {size(hip)}"]
    rows += [f"waist_to_hip = {size(pick.uniform(170.0, 230.0))}"]
    rows += [f"crotch_length = {size(max(hip * pick.uniform(0.68, 0.8), 520.0))}"]
    if pick.random() < 0.4:
        rows.append(f"top_hip = {size(waist + (hip - waist) * pick.uniform(0.45, 0.75))}")
    if pick.random() < 0.3:
        rows.append(f"thigh = {size(hip * pick.uniform(0.52, 0.62))}")
    return "[wearer]\n" + "\n".join(rows) + "\n"


def _lace(pick: Random, size) -> str:
    edges = pick.choice(["double scallop", "double scallop", "double scallop", "single scallop", "straight", "none"])
    width = 1400.0 if edges == "none" else pick.choice([60.0, 120.0, 180.0, 230.0, 255.0, 290.0])
    rows = ['kind = "lace"', f'edges = "{edges}"', f"width = {size(width)}"]
    if "scallop" in edges:
        pitch = pick.choice([20.0, 30.0, 42.0])
        rows += [f"scallop_pitch = {size(pitch)}", f"scallop_depth = {size(pick.uniform(4.0, 11.0))}"]
    if edges == "double scallop":
        rows.append(f'second_edge = "{pick.choice(["mirror", "half step", "other"])}"')
    rows += [f"mirror_across = {pick.choice(['true', 'false'])}", f"stretch_length = {pick.randint(20, 80)}"]
    rows += [f"stretch_width = {pick.randint(5, 40)}", f"recovery = {pick.randint(80, 98)}"]
    rows += [f"on_hand = {size(pick.uniform(600.0, 3000.0))}"]
    rows += [row for row in ("openness = 0.4", "price = 9.5", "reversible = false") if pick.random() < 0.4]
    return "[cloth.heron]\n" + "\n".join(rows) + "\n"


def _cloths(pick: Random, size) -> str:
    text = "[cloth.mesh]\n" + f'kind = "{pick.choice(["mesh", "knit"])}"\nwidth = {size(1500.0)}\n'
    text += f"stretch_width = {pick.randint(30, 120)}\nstretch_length = {pick.randint(10, 80)}\nrecovery = 95\n"
    if pick.random() < 0.4:
        text += 'pull_test = { along = "width", strip = "5 cm", load_g = 500, stretch = 32 }\n'
    if pick.random() < 0.4:
        text += f"on_hand = {size(pick.uniform(300.0, 1200.0))}\n"
    return text + f'[cloth.lining]\nkind = "knit"\nwidth = {size(1400.0)}\nstretch_width = 40\nstretch_length = 20\n'


def _open_side(pick: Random, size) -> str:
    """An open side in some briefs, straight or narrowing."""
    if pick.random() < 0.75:
        return ""
    gaps = [size(pick.uniform(20.0, 110.0)) for _ in range(2)]
    gap = pick.choice([gaps[0], f"{{ waist = {gaps[0]}, leg = {gaps[1]} }}"])
    rows = [f"gap = {gap}", f"straps = {pick.randint(1, 4)}"]
    rows += [row for row in ('strap = "strap elastic 15 mm"', "worn_stretch = 12") if pick.random() < 0.5]
    return "[open_side]\n" + "\n".join(rows) + "\n"


def _rest(pick: Random, size) -> str:
    """Panels, style, finishes and one way, or none, to use the lace."""
    use = pick.choice(["scalloped leg"] * 4 + ["panel", "V inset", "edge trim", "waistband", "none"])
    panel = "back" if use == "V inset" else pick.choice(["back", "front", "both"])
    worn = {"scalloped leg", "panel"} & {use}
    panels = {one: "heron" if worn and panel in (one, "both") else "mesh" for one in ("front", "back")}
    rows = ["[panels]", *(f'{name} = "{cloth}"' for name, cloth in panels.items())]
    rows += ['gusset = "mesh"', 'gusset_lining = "lining"']
    rows += ['upper_back = "mesh"'] if use == "V inset" else []
    rows += ["[style]", f'shape = "{pick.choice(_SHAPES)}"']
    drops = ['"auto"'] * 3 + [size(40.0), f"{{ front = {size(50.0)}, side = {size(40.0)}, back = {size(30.0)} }}"]
    rows += [f"waist_drop = {pick.choice(drops)}"]
    rows += [f"centre_back_seam = {'true' if use == 'V inset' else pick.choice(['true', 'true', 'false'])}"]
    rows += [f"leg_raise = {size(pick.uniform(0.0, 50.0))}"] if pick.random() < 0.4 else []
    rows += [f'seat_coverage = "{pick.choice(["full", "medium", "low"])}"'] if pick.random() < 0.5 else []
    rows += [f"side_seam = {size(25.0)}"] if pick.random() < 0.2 else []
    rows += ["[finish]", f'waist = "{pick.choice(["picot elastic 10 mm", "hem", "binding"])}"']
    if use == "scalloped leg" and panel != "front":
        rows.append('back_leg = "scallop"')
    rows += ["[allowance]", f"seam = {size(pick.choice([5.0, 6.0, 10.0]))}"] if pick.random() < 0.5 else []
    if use == "none":
        return "\n".join(rows) + "\n"
    rows += ["[[lace]]", f'use = "{use}"', 'cloth = "heron"']
    rows += [f'panel = "{panel}"'] if use in ("scalloped leg", "panel", "V inset") else []
    rows += [f'meet = "{pick.choice(["valley", "peak"])}"'] if pick.random() < 0.5 else []
    return "\n".join(rows) + "\n"
