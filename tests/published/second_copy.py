"""The second copy of each table, brought into the shape of its table in core/data.

Every function of `TABLES` yields rows: a key (a tuple of texts), and for each compared column its value and its grade
(`None` where the second copy grades nothing).
"""

import csv
import re
from pathlib import Path

HERE = Path(__file__).parent / "tables"
GRADES = {"sources2+": "2", "source1": "1", "memory": "m"}
EDITIONS = "2017;2020;2023"
used = set()

# Rows of the second copy that core/data leaves out on purpose.
LEFT_OUT = {
    "flexible_cord_ampacity_400_5_a1": {"20"},  # figures of elevator cables only
    "cord_temperature_ratings": "typical markings, for warnings only",
    "source_and_plug_rating_facts": "figures of single manuals and guides",
    "international_plug_configurations": "systems outside IEC 60309",
    "insulation_types": "the 2014 edition, and a rule carried as a note",
}


def rows(name):
    used.add(name)
    with open(HERE / f"{name}.csv", encoding="utf-8", newline="") as lines:
        yield from csv.DictReader(line for line in lines if not line.startswith("#"))


def size(text, unit=None):
    if not text:
        return ""
    if text.endswith("kcmil"):
        return text
    large = unit == "kcmil" or ("/" not in text and int(text) >= 250)
    return f"{text} {'kcmil' if large else 'AWG'}"


def grade(row, column="confidence"):
    return GRADES.get(row[column], row[column])


def by_row(row, values):
    """One grade for the whole row."""
    return {c: (v, grade(row) if v else "-") for c, v in values.items()}


def by_cell(marks, values):
    """One character of `marks` a column, in order."""
    assert len(marks) == len(values), (marks, values)
    return {c: (v, g) for (c, v), g in zip(values.items(), marks)}


def ampacity(name):
    for r in rows(name):
        values = {f"{long}_{t}c_a": r[f"{short}_{t}c_a"] for short, long in (("cu", "copper"), ("al", "aluminum"))
                  for t in (60, 75, 90)}
        yield (size(r["size"], r["unit"]),), by_cell(r["confidence"], values)


def ambient_30c():
    bands = "ambient_c_from ambient_c_to ambient_f_from ambient_f_to".split()
    for r in rows("ambient_correction_30c"):
        yield tuple(r[b] for b in bands), by_cell(r["confidence"], {c: r[c] for c in r if c.startswith("factor")})


def adjustment(name, first, last, percent):
    for r in rows(name):
        yield (r[first], r[last]), by_row(r, {"percent": r[percent]})


def dwelling_service():
    for r in rows("dwelling_service_310_12"):
        yield (r["rating_a"],), by_cell(r["confidence"], {"copper": size(r["cu_size"]), "aluminum": size(r["al_size"])})


def standard_ratings():
    for r in rows("ocpd_standard_ratings_240_6"):
        editions = r["editions"].removeprefix("2014;")
        yield (r["rating_a"], r["kind"].replace("_", "-"), editions), by_row(r, {"rating_a": r["rating_a"]})


def next_size_up():
    said = {(r["section"], r["condition_no"]): r for r in rows("next_size_up_240_4_b")}
    for parameter, place, pattern, value in (
        ("limit", ("240.4(B)", "3"), r"not exceed (800) A", None),
        ("receptacle-exclusion", ("240.4(B)", "1"), "not part of .* more than one receptacle", "yes"),
        ("ampacity-is-standard-exclusion", ("240.4(B)", "2"), "does not correspond to the standard rating", "yes"),
        ("fully-protected-above", ("240.4(C)", ""), r"Above (800) A", None),
        ("small-conductor-limits-apply", ("240.4(D)", ""), "apply on top", "yes"),
    ):
        found = re.search(pattern, said[place]["statement"])
        yield (parameter,), by_row(said[place], {"value": (value or found[1]) if found else "?"})


def small_conductor():
    names = {"cu": ["copper"], "cca": ["copper-clad-aluminum"], "al_or_cca": ["aluminum", "copper-clad-aluminum"]}
    for r in rows("small_conductor_240_4_d"):
        old, new = (r[c] and f"240.4{r[c]}" for c in ("item_2014_2020", "item_2023"))
        for material in names[r["material"]]:
            values = {"overcurrent_max_a": r["max_ocpd_a"], "continuous_max_a": r["max_continuous_a"],
                      "item_2017": old, "item_2020": old, "item_2023": new}
            # The header of the second copy grades the other columns: memory, but the item of the 14 AWG clad row.
            marks = [r["confidence"], "m", "m", "m", "1" if r["material"] == "cca" else "m"]
            yield (size(r["size"]), material), by_cell([g if v else "-" for g, v in zip(marks, values.values())], values)


def equipment_grounding():
    for r in rows("egc_250_122"):
        yield (r["ocpd_not_exceeding_a"],), by_cell(r["confidence"], {
            "copper": size(r["cu_size"]), "aluminum_2020": size(r["al_size_2020_2023"]),
            "aluminum_2017": size(r["al_size_2014_2017"])})


def grounding_increase():
    # Sentences differ on purpose: compared are the edition, and the exception where there is none.
    for r in rows("egc_increase_250_122_b"):
        if r["edition"] != "2014":
            yield (r["edition"],), {"edition": (r["edition"], grade(r))} | (
                {"exception": ("none", grade(r))} if r["exception"] == "none" else {})


def grounding_electrode():
    for r in rows("gec_250_66"):
        bounds = "cu_service_over cu_service_through al_service_over al_service_through".split()
        yield tuple(size(r[b]) for b in bounds), by_cell(r["confidence"], {
            "copper": size(r["cu_gec"]), "aluminum": size(r["al_gec"])})


def conductor_properties():
    long = lambda c: c.replace("dia_", "diameter_").replace("cu_", "copper_").replace("al_ohm", "aluminum_ohm")
    for r in rows("conductor_properties_ch9_t8"):
        columns = [c for c in r if c not in ("size", "strands", "confidence")]
        renamed = {c if c.startswith("overall_area") else long(c): r[c] for c in columns}
        yield (size(r["size"]), r["strands"]), by_cell(r["confidence"], renamed)


def ac_impedance():
    quantity = {"x": "reactance", "r": "resistance", "z": "impedance"}
    conduit = {"pvc": "pvc", "al": "aluminum", "steel": "steel"}
    def long(column):
        q, *rest, unit = re.fullmatch(r"([xrz])_(.+)_(ohm_per_k\w+)", column).groups()
        words = rest[0].removesuffix("_conduit")
        if q == "x":
            return f"reactance_{'steel' if words == 'steel' else 'pvc_or_aluminum'}_conduit_{unit}"
        metal, place = words.split("_")
        return f"{'copper' if metal == 'cu' else 'aluminum'}_{quantity[q]}_{conduit[place]}_conduit_{unit}"
    for r in rows("ac_impedance_ch9_t9"):
        values = {long(c): v for c, v in r.items() if c not in ("size", "unit", "confidence_kft", "confidence_km")}
        yield (size(r["size"], r["unit"]),), by_cell(r["confidence_kft"] + r["confidence_km"], values)


def coefficients():
    for r in rows("temperature_coefficients"):
        yield (r["material"].replace("aluminium", "aluminum"),), by_row(r, {
            "coefficient_per_c": r["coefficient_per_c_at_75c"], "reference_c": r["reference_c"]})


def cord_ampacity():
    name = "flexible_cord_ampacity_400_5_a1"
    for r in rows(name):
        if r["awg"] not in LEFT_OUT[name]:
            yield (size(r["awg"]),), by_row(r, {
                "column_a_three_current_carrying_a": r["column_a_3_current_carrying_a"],
                "column_b_two_current_carrying_a": r["column_b_2_current_carrying_a"],
                "heater_cord_a": r["heater_cord_a"]})


def portable_cable():
    for r in rows("portable_cable_ampacity_400_5_a2"):
        yield (size(r["size"]),), by_row(r, {
            f"{count}_{t}c_a": r[f"{letter}_{t}c_a"] for t in (60, 75, 90)
            for letter, count in (("d", "single"), ("e", "two"), ("f", "three"))})


def cord_types():
    words = lambda t: t.replace("oil_resistant_", "oil-resistant ").replace("_optional_", " with optional ").replace("_", " ")
    for r in rows("flexible_cord_types_400_4"):
        yield (r["type"],), by_row(r, {
            "voltage_v": r["volts"], "smallest_size": size(r["size_max_number_awg"]),
            "largest_size": size(r["size_min_number_awg_or_kcmil"]), "conductors": r["conductors"],
            "insulation": words(r["insulation"]), "jacket": words(r["jacket"]),
            "location": r["location"].replace("_", "-"),
            "usage": r["usage"].replace("ranges_dryers", "ranges-and-dryers").replace("_", "-")})


def cord_protection():
    for r in rows("flexible_cord_protection_240_5"):
        case = "fixture-wire" if r["case"] == "fixture wire" else "field-assembled-extension-set"
        yield (case, r["circuit_a"], r["max_length_ft"]), by_row(r, {
            "smallest_size": size(r["smallest_awg"]), "length_max_ft": r["max_length_ft"]})


def cord_temperature():
    names = {"unmarked cord, assumed rating": "unmarked-cord",
             "ambient the Table 400.5 values are based on": "table-ambient",
             "cord rated 105 C: correction column to use": "correction-column-of-105c-cord"}
    for r in rows("cord_temperature_ratings"):
        if r["item"] in names:
            yield (names[r["item"]],), by_row(r, {"value_c": r["value_c"]})


def insulations():
    for r in rows("insulation_types"):
        if "cable" in r["type"]:
            continue
        column = r["ampacity_table_column_c"]
        dry, wet = (re.search(rf"(\d+) {place}", column) for place in ("dry", "wet"))
        dry = dry[1] if dry else column
        wet = wet[1] if wet else column if r["max_c_wet"] else ""
        section = dict(zip(("2017", "2020", "2023"), re.findall(r"310\.\S+", r["sections"])))
        for kind in r["type"].removesuffix(" (conductor)").split(", "):
            c, o = r["confidence_column"], r["confidence_other"]
            # Only the wet entry of ZW was seen (its note says so): the dry one counts as memory.
            cells = {"dry_c": (r["max_c_dry_damp"], o), "wet_c": (r["max_c_wet"], o),
                     "column_dry_c": (dry, "m" if kind == "ZW" else c), "column_wet_c": (wet, c),
                     "wet_location": (r["wet_location"], o)}
            cells = {k: (v, g if v else "-") for k, (v, g) in cells.items()}
            yield (kind,), cells | {f"section_{e}": (s, None) for e, s in section.items()}


def cables():
    keys = {"NM-B (cable)": ("NM-B", "anywhere", "", ""), "NMC-B (cable)": ("NMC-B", "anywhere", "", ""),
            "UF-B (cable)": ("UF-B", "anywhere", "", ""),
            "SE cable, interior, not in thermal insulation": ("SE", "interior", "", ""),
            "SE cable, interior, in contact with thermal insulation, 10 AWG and smaller, 2017-2023":
                ("SE", "interior-in-thermal-insulation", "", "10 AWG"),
            "AC cable, in thermal insulation": ("AC", "in-thermal-insulation", "", ""),
            "MC cable": ("MC", "anywhere", "", "")}
    words = {"damp, corrosive; not wet": "no", "per conductors": "conductor", "per listing": "listing"}
    for r in rows("insulation_types"):
        if r["type"] not in keys:
            continue
        dry = r["max_c_dry_damp"]
        factor = ("conductor" if dry == "per conductors" else dry) if r["may_use_90c_for_correction"][:3] == "yes" else ""
        other = r["confidence_other"]
        cells = {"final_column_c": (r["final_ampacity_cap_c"] or "conductor", r["confidence_column"]),
                 "factor_column_c": (factor, other if factor else "-"),
                 "wet_location": (words.get(r["wet_location"], r["wet_location"]), other)}
        cited = re.findall(r"3\d\d\.\d+(?:\(\w+\))*", r["sections"])
        late = cited[1] if len(cited) > 1 and cited[1].startswith(cited[0] + "(") else cited[0]
        yield keys[r["type"]], cells | {"section_2017": (cited[0], other), "section_2020": (late, other),
                                        "section_2023": (late, other)}
        if r["final_ampacity_cap_c"] and "8 AWG and larger: no 60 C cap" in r["note"]:
            cells["final_column_c"] = ("conductor", other)
            yield ("SE", "interior-in-thermal-insulation", "8 AWG", ""), cells


def circuits(text):
    return text.split(" or ")


def receptacle_load():
    for r in rows("receptacle_cord_plug_load_210_21_b2"):
        for circuit in circuits(r["circuit_rating_a"]):
            yield (circuit, r["receptacle_rating_a"]), by_row(r, {"load_max_a": r["max_load_a"]})


def receptacle_ratings():
    for r in rows("receptacle_ratings_210_21_b3"):
        yield (r["circuit_rating_a"],), by_row(r, {
            "receptacle_min_a": r["receptacle_rating_min_a"], "receptacle_max_a": r["receptacle_rating_max_a"]})


def permissible_loads():
    names = (("one cord-and-plug item", "one-cord-and-plug-item"), ("total of equipment", "fastened-in-place-beside-other-loads"),
             ("any multiple", "total-on-multiple-outlets"), ("individual", "total-on-individual-circuit"),
             ("cord-connected room air conditioner,", "room-air-conditioner-alone"),
             ("cord-connected room air conditioner sharing", "room-air-conditioner-beside-other-loads"))
    for r in rows("branch_circuit_permissible_loads_210_23"):
        name = next(ours for theirs, ours in names if r["rule"].startswith(theirs))
        for circuit in circuits(r["circuit_a"]):
            yield (name, circuit), by_row(r, {"limit_percent": r["limit_percent_of_circuit"],
                                              "section_2020": r["section_2020"], "section_2023": r["section_2023"]})


def branch_summary():
    for r in rows("branch_circuit_summary_210_24"):
        editions = "2023" if r["edition"] == "2023 only" else EDITIONS
        yield (r["circuit_rating_a"], editions), by_row(r, {
            "conductor": size(r["circuit_wire_awg"]), "tap": size(r["tap_wire_awg"]),
            **{c: r[c] for c in ("overcurrent_a", "receptacle_min_a", "receptacle_max_a")}, "load_max_a": r["max_load_a"]})


def rule_factors():
    names = {"receptacle_not_supply": "receptacle-not-supply", "single_receptacle": "single-receptacle-share",
             "cord_plug_share": "cord-plug-load-share", "continuous_ocpd": "continuous-branch-overcurrent",
             "continuous_conductor": "continuous-branch-conductor", "generator_conductors": "generator-conductors",
             "continuous_100_listed": "continuous-100-percent-listed-overcurrent",
             "generator_conductors_nonoverload": "generator-conductors-overload-prevented",
             "range_circuit_min": "range-circuit-minimum", "portable_gfci_limit": "generator-ground-fault-protection-through"}
    for r in rows("source_and_plug_rating_facts"):
        if r["id"] in names:
            cited = [re.sub(r" \[\d+\]$", "", s).replace("exception", "Exception") for s in r["section_or_source"].split("; ")]
            yield (names[r["id"]],), by_row(r, {"value": r["value"], "section_2020": cited[0], "section_2023": cited[-1]}) | {
                "unit": (r["unit"], None)}


def wd6_configurations():
    columns = dict(locking="locking", poles="poles", wires="wires", rated_v="rated_volts", second_v="second_volts",
                   rated_a="rated_amperes", neutral="neutral", grounding="grounding", phases="phases")
    for r in rows("nema_configurations"):
        yield (r["designation"],), by_row(r, {ours: r[theirs] for ours, theirs in columns.items()})


def mating():
    other = {(r["plug"], r["receptacle"]): r["mates"] for r in rows("nema_mating_exceptions")}
    for r in rows("nema_mating_matrix"):
        for column, mark in r.items():
            pair = (r["plug"], column.removeprefix("r_"))
            if column.startswith("r_") and mark != "0":
                word = {"1": "yes", "c": "conditional"}[mark]
                assert pair[0] == pair[1] or other.pop(pair) == word, pair
                yield pair, by_row(r, {"mates": word})
    assert not other, other


def iec60309():
    for r in rows("international_plug_configurations"):
        if r["designation"].startswith("IEC 60309 "):
            columns = dict(poles="poles", wires="wires", rated_low_v="rated_volts_low", rated_high_v="rated_volts_high",
                           rated_a="rated_amperes", neutral="neutral", earth="earth", phases="phases", color="colour")
            # The header grades the clock position apart: one maker's example.
            yield (r["designation"].removeprefix("IEC 60309 "),), by_row(r, {c: r[t] for c, t in columns.items()}) | {
                "earth_clock_h": (r["earth_clock_h"], "1")}


# Table of core/data: how many leading or named key columns it has, and its second copy.
def plain(name, *columns):
    """A table whose columns and texts are the same in both copies, one grade a row."""
    for r in rows(name):
        yield (next(iter(r.values())),), {c: (r[c], grade(r) if r[c] else None) for c in columns}


def facts(name):
    for r in rows(name):
        yield (r["id"].replace("_", "-"),), {c: (r[c], grade(r)) for c in ("value", "section")}


def locked_rotor_single_phase():
    for r in rows("motor_lrc_single_phase_430_251_a"):
        # 10 hp at 115 V reads differently in two editions: core/data leaves it blank.
        alternative = r["alternative_115_a"]
        yield (r["hp"],), {
            "volts_115_a": ("", None) if alternative else (r["volts_115_a"], grade(r)),
            **{c: (r[c], "2" if alternative else grade(r)) for c in ("volts_208_a", "volts_230_a")}}


def motor_overcurrent():
    for r in rows("motor_ocpd_percent_430_52"):
        yield (r["motor_type"].replace("_", "-"),), by_row(r, {c: r[c] for c in r if c.endswith("percent")})


def volts(*columns):
    return [f"volts_{v}_a" for v in columns]


TABLES = {
    "nec/ampacity-raceway": ("size", lambda: ampacity("ampacity_310_16")),
    "nec/ampacity-free-air": ("size", lambda: ampacity("ampacity_310_17")),
    "nec/ambient-correction-30c": ("ambient_c_from ambient_c_to ambient_f_from ambient_f_to", ambient_30c),
    "nec/adjustment-more-than-three": ("count_from count_to", lambda: adjustment(
        "adjustment_more_than_three", "count_from", "count_to", "percent")),
    "nec/dwelling-service": ("rating_a", dwelling_service),
    "nec/standard-ratings": ("rating_a kind editions", standard_ratings),
    "nec/next-size-up": ("parameter", next_size_up),
    "nec/small-conductor": ("size material", small_conductor),
    "nec/equipment-grounding": ("overcurrent_not_above_a", equipment_grounding),
    "nec/equipment-grounding-increase": ("edition", grounding_increase),
    "nec/grounding-electrode": (
        "copper_service_over copper_service_through aluminum_service_over aluminum_service_through", grounding_electrode),
    "nec/conductor-properties": ("size strands", conductor_properties),
    "nec/ac-impedance": ("size", ac_impedance),
    "nec/temperature-coefficients": ("material", coefficients),
    "nec/flexible-cord-ampacity": ("size", cord_ampacity),
    "nec/portable-cable-ampacity": ("size", portable_cable),
    "nec/flexible-cord-adjustment": ("count_from count_to", lambda: adjustment(
        "flexible_cord_adjustment_400_5_a3", "conductors_min", "conductors_max", "percent_of_three_conductor_value")),
    "nec/flexible-cord-types": ("type", cord_types),
    "nec/flexible-cord-protection": ("case circuit_a length_max_ft", cord_protection),
    "nec/cord-temperature": ("item", cord_temperature),
    "nec/insulations": ("type", insulations),
    "nec/cables": ("cable installed smallest_size largest_size", cables),
    "nec/receptacle-load": ("circuit_a receptacle_a", receptacle_load),
    "nec/receptacle-ratings": ("circuit_a", receptacle_ratings),
    "nec/permissible-loads": ("load circuit_a", permissible_loads),
    "nec/branch-circuit-summary": ("circuit_a editions", branch_summary),
    "nec/motor-code-letters": ("letter", lambda: plain("motor_code_letters_430_7_b", "kva_per_hp_min", "kva_per_hp_max")),
    "nec/motor-full-load-single-phase": ("hp", lambda: plain("motor_flc_single_phase_430_248", *volts(115, 200, 208, 230))),
    "nec/motor-full-load-three-phase": ("hp", lambda: plain(
        "motor_flc_three_phase_430_250", *volts(115, 200, 208, 230, 460, 575, 2300))),
    "nec/motor-locked-rotor-single-phase": ("hp", locked_rotor_single_phase),
    "nec/motor-locked-rotor-three-phase": ("hp", lambda: plain(
        "motor_lrc_three_phase_430_251_b", *volts(115, 200, 208, 230, 460, 575))),
    "nec/motor-overcurrent": ("motor_type", motor_overcurrent),
    "nec/motor-rule-factors": ("key", lambda: facts("motor_rule_factors")),
    "nec/dwelling-load": ("key", lambda: facts("dwelling_and_standby_load_facts")),
    "nec/dryer-demand": ("dryers_min", lambda: plain("dryer_demand_220_54", "percent")),
    "nec/range-demand": ("appliances", lambda: plain(
        "range_demand_220_55", "column_a_percent", "column_b_percent", "column_c_kw")),
    "nec/rule-factors": ("key", rule_factors),
    "wd6/configurations": ("designation", wd6_configurations),
    "wd6/mating": ("plug receptacle", mating),
    "iec60309/configurations": ("designation", iec60309),
}
