"""The names of plan.json, format seatwright-plan/1, as the design fixes them. A name may be added, none renamed.

A dict is an object, a list of one dict a list of objects, EACH an object with any keys, None a
value of any form.
"""

EACH = "*"


def _values(names):
    return dict.fromkeys(names.split())


HEIGHTS = _values("least most aim expected")
EDGES = _values("outer inner")

VALVE = {
    **_values(
        "head kind status notes floor_left cutter setting corner_radius passes rpm surface_speed_m_min feed_mm_rev"
    ),
    **_values("minutes torque_Nm valve_tilt trial_here turns holds insert_was"),
    "found": {
        **_values("insert_od insert_height old_insert_od guide_top guide_middle guide_bottom pocket_a pocket_b"),
        **_values("pocket_low_a pocket_low_b pocket_depth pocket_offset throat throat_offset floor_thickness"),
        **_values("damage damage_depth metal_around head_diameter margin stem recession stem_height spring_height"),
        **_values("insert temperature_C"),
        "earlier": [_values("date pocket_a")],
    },
    "at20": _values("guide pocket insert_od"),
    "insert": {
        **_values("name od od_least od_most height id chamfer alloy measured"),
        "passed_over": [_values("name reason figure")],
    },
    "next": _values("insert bore"),
    "interference": _values("least most aim expected source"),
    "clean_up": _values("needed left"),
    "bore": _values(
        "least most aim u bench_least bench_most bench_aim accept_least accept_most u_accept reading_least reading_most"
    ),
    "replaced": [_values("part date")],
    "depth": _values("aim least most from"),
    "guide": _values("clearance bell_mouth port_end spring_end least most wear_limit verdict"),
    "pilot": _values("name diameter kind clearance offset runout runout_limit tilt"),
    "fit": {
        **_values(
            "pressure hoop_head hoop_insert push_out press_in hot_least hot_most soaked_least soaked_most gone_at_C"
        ),
        **_values(
            "set_left in_limits_probability pressure_least pressure_most hoop_head_least hoop_head_most push_out_least"
        ),
        **_values("push_out_most press_in_least press_in_most"),
    },
    "assembly": {
        **_values("head_C chill insert_C arrives_C clearance kind press_N grabs_at_C reheat_below_C order"),
        "pairs": [_values("heat_C chill clearance kind")],
    },
    "seat": {
        **_values("outer inner width width_least width_most angle sink gauge_depth carries stem_change stem_after"),
        **_values("spring_after shim grind runout_limit leak_limit_s"),
        "cuts": [{**_values("name angle outer inner width"), "deeper_0_1": EDGES}],
        "recession": HEIGHTS,
        "stem": _values("least most"),
        "spring": _values("least most"),
    },
    "cut": {
        **_values(
            "bore bore_a bore_b round taper depth floor_square cutter read insert_od overcut interference u verdict"
        ),
        **_values("open_by deeper_by earlier bore_verdict again"),
    },
    "finished": {
        **_values("stand seat_tir seat_width recession stem_height spring_height leak verdict date earlier"),
        "verdicts": {EACH: None},
    },
    "position": _values("x y"),
    "if_big": [_values("do insert bore")],
    "waits": _values("for text"),
    "order": _values("od height id alloy height_most valves"),
    "holds_text": {EACH: None},
}

SETTING = {
    **_values("number head cutter machine gauge reading reading_unit temperature_C indicator indicator_step master"),
    **_values("master_reads aim least most rounding_left rpm feed_mm_rev trial_under valves waits"),
    "first": _values("bore reading"),
    "overcut": _values("value spread from trials"),
    "pilot": {EACH: None},
    "correction": _values("temperature master overcut"),
    "depth_stops": [_values("number stop dial dial_unit valves")],
}

PLACE = "file line column end_column text"

PLAN = {
    **_values("format made_by language stamp commit fewest_settings_proof cautions not_checked"),
    "job": _values("number title customer machinist received due units paper notes"),
    "sources": [_values("path sha256")],
    "cards": [_values("number of name head valves stamp")],
    "heads": [
        {
            **_values(
                "number name text material fuel temperature_C depth_from least_bridge least_floor inserts_allowed"
            ),
            **_values("crack_test pressure_test hot_head_C hot_insert_C heat_limit_C notes"),
            "skim": _values("amount when"),
        }
    ],
    "valves": {EACH: VALVE},
    "settings": [SETTING],
    "trials": [_values("head cutter read bored overcut")],
    "bridges": [_values("between head centres left least")],
    "fetch": {
        **_values("cutters pilots gauge bore_gauge master ring order heat_C press_N"),
        "inserts": [_values("name count left")],
        "chill": _values("name C"),
    },
    "caution_places": {EACH: _values("cards valves")},
    "messages": [{**_values(f"severity slug end_line help valves cards {PLACE}"), "related": [_values(PLACE)]}],
}


def missing(names, document, path=""):
    """Paths of the names that a document does not have."""
    if isinstance(names, list):
        if not isinstance(document, list) or not document:
            yield f"{path}[]"
            return
        yield from missing(names[0], document[0], f"{path}[]")
    elif isinstance(names, dict):
        if not isinstance(document, dict):
            yield path
            return
        for name, below in names.items():
            if name == EACH:
                if not document:
                    yield f"{path}.{EACH}"
                for key, value in document.items():
                    yield from missing(below, value, f"{path}.{key}")
            elif name not in document:
                yield f"{path}.{name}"
            else:
                yield from missing(below, document[name], f"{path}.{name}")
