"""Every calculation once more: slow, plain, in fractions, from the second copy of the tables.

A function takes a question as the command does and returns the exact answer, or raises `CannotTell`.
Sections are those of the NEC of 2023 unless one is named.
"""

from fractions import Fraction
from functools import cache
from math import isqrt

import second_copy
from second_copy import size

# A figure from memory alone is not rested on.
TRUSTED = set("2p1c") | {"sources2+", "source1"}
METALS = {"copper": "cu", "aluminum": "al", "copper-clad aluminum": "al"}
CONDUITS = {"PVC": "pvc", "aluminum": "al_conduit", "steel": "steel"}


class CannotTell(Exception):
    """The tables do not give the answer."""


@cache
def rows(name):
    return list(second_copy.rows(name))


def table(name, key, wanted):
    found = [row for row in rows(name) if key(row) == wanted]
    if not found:
        raise CannotTell(f"{name}: no row {wanted}")
    return found


def number(text):
    return Fraction(text.split()[0])


def cell(row, column, marks, columns):
    """The figure of a cell whose grade is one character of `marks`, in the order of `columns`."""
    grade = marks[columns.index(column)]
    if not row[column] or grade not in TRUSTED:
        raise CannotTell(f"{column}: {row[column]!r} of grade {grade}")
    return Fraction(row[column])


def columns_between(row, first, last):
    names = list(row)
    return names[names.index(first) : names.index(last) + 1]


def gauge(text):
    """A number that grows with the size."""
    number, unit = text.split()
    if unit == "kcmil":
        return Fraction(number)
    return -int(number) if "/" not in number else int(number.split("/")[0]) - 1


# Ampacity: 310.16, 310.17, 310.15(B)(1), (B)(2), (C)(1), 110.14(C), 334.80, 340.80


def base_ampacity(free_air, metal, column, of):
    name = "ampacity_310_17" if free_air else "ampacity_310_16"
    [row] = table(name, lambda r: size(r["size"], r["unit"]), of)
    names = columns_between(row, "cu_60c_a", "al_90c_a")
    return cell(row, f"{metal}_{column}c_a", row["confidence"], names)


def ambient_factor(column, ambient, rise_c=0):
    """The band whose upper edge is the first not below the ambient, on the scale that the ambient is written in."""
    degrees, scale = Fraction(ambient.split()[0]), ambient.split()[1][-1].lower()
    degrees += rise_c if scale == "c" else Fraction(rise_c * 9, 5)
    for row in rows("ambient_correction_30c"):
        if degrees <= int(row[f"ambient_{scale}_to"]):
            return cell(row, f"factor_{column}c", row["confidence"], ["factor_60c", "factor_75c", "factor_90c"])
    raise CannotTell("warmer than the table")


def percent_for(name, first, last, percent, count):
    for row in rows(name):
        if int(row[first]) <= count and (not row[last] or count <= int(row[last])):
            return Fraction(int(row[percent]), 100)
    return Fraction(1)


def insulation_column(insulation, wet):
    for row in rows("insulation_types"):
        if insulation in (name.strip() for name in row["type"].split(",")):
            text = row["ampacity_table_column_c"]
            if wet and not row["max_c_wet"]:
                raise CannotTell("not for wet places")
            if row["confidence_column"] not in TRUSTED or (insulation, wet) == ("ZW", False):
                raise CannotTell("column from memory")  # of ZW only the wet column was seen
            if ";" in text:
                return int(text.split(";")[wet].split()[0])
            return int(text)
    raise CannotTell("unknown insulation")


def small_conductor(material, of, year):
    """240.4(D): the greatest device of a small conductor, or None."""
    kind = {"copper": ("cu",), "aluminum": ("al_or_cca",), "copper-clad aluminum": ("al_or_cca", "cca")}[material]
    for row in rows("small_conductor_240_4_d"):
        if size(row["size"]) == of and row["material"] in kind:
            if not row["item_2023" if year == 2023 else "item_2014_2020"]:
                raise CannotTell("not in this edition")
            if row["confidence"] not in TRUSTED or row["max_continuous_a"]:
                raise CannotTell("from memory")
            return int(row["max_ocpd_a"])
    return None


def ampacity(q, year):
    metal, of = METALS[q["material"]], q["size"]
    cap = None
    if q.get("cable") == "NM-B" and q["place"] == "wet":
        raise CannotTell("not for wet places: 334.12")
    if "cable" in q:
        column, cap = {"NM-B": (90, 60), "UF-B": (60, 60)}[q["cable"]]
    else:
        column = insulation_column(q["insulation"], q["place"] == "wet")
    rise = 0
    if "rooftop-clearance" in q and q.get("insulation") != "XHHW-2":
        # 310.15(B)(2): below 23 mm, from 2023 below 19 mm.
        clearance, unit = q["rooftop-clearance"].split()
        millimeters = Fraction(clearance) * {"in": Fraction("25.4"), "mm": 1}[unit]
        rise = 33 if millimeters < (19 if year == 2023 else 23) else 0
    value = base_ampacity(q.get("installation") == "free air", metal, column, of)
    value *= ambient_factor(column, q["ambient"], rise)
    count = int(q["current-carrying"])
    value *= percent_for("adjustment_more_than_three", "count_from", "count_to", "percent", count)
    terminal = base_ampacity(False, metal, min(column, terminal_column(q)), of)
    limits = [value, terminal]
    if cap:
        limits.append(base_ampacity(False, metal, cap, of))
    small_conductor(q["material"], of, year)
    return min(limits), value


def terminal_column(q):
    """110.14(C)(1): the mark; unmarked 60 °C to 100 A, or to 1 AWG where the rating is not known, 75 °C above."""
    if q["terminals"] != "unmarked":
        return int(q["terminals"].split()[0])
    if "circuit-rating" in q:
        return 60 if number(q["circuit-rating"]) <= 100 else 75
    return 60 if gauge(q["size"]) <= gauge("1 AWG") else 75


# Flexible cords: 400.4, 400.5(A)

HEATER = {"HPD", "HPN", "HSJ", "HSJO", "HSJOW", "HSJOO", "HSJOOW"}
PORTABLE = {"SC", "SCE", "SCT", "PPE", "G", "G-GC", "W"}


def cord(q):
    [made] = table("flexible_cord_types_400_4", lambda r: r["type"], q["cord"])
    largest = made["size_min_number_awg_or_kcmil"]
    largest = largest if "kcmil" in largest else f"{largest} AWG"
    if not gauge(f"{made['size_max_number_awg']} AWG") <= gauge(q["size"]) <= gauge(largest):
        raise CannotTell("not made in that size")
    marked = int(number(q["marked"])) if "marked" in q else 60
    if marked < 60:
        raise CannotTell("marked below every column")
    column = max(c for c in (60, 75, 90) if c <= marked)
    count = int(q["current-carrying"])
    if q["cord"] in PORTABLE:
        [row] = table("portable_cable_ampacity_400_5_a2", lambda r: size(r["size"]), q["size"])
        name = f"{'def'[min(count, 3) - 1]}_{column}c_a"
    else:
        [row] = table("flexible_cord_ampacity_400_5_a1", lambda r: size(r["awg"]), q["size"])
        name = "column_a_3_current_carrying_a" if count >= 3 else "column_b_2_current_carrying_a"
        name = "heater_cord_a" if q["cord"] in HEATER else name
    if not row[name]:
        raise CannotTell("blank")
    value = Fraction(row[name]) * ambient_factor(column, q["ambient"])
    last = "percent_of_three_conductor_value"
    return value * percent_for("flexible_cord_adjustment_400_5_a3", "conductors_min", "conductors_max", last, count)


# Overcurrent devices and continuous loads: 240.4(B), (D), 240.6(A), 210.19, 210.20


def standard(kind, year):
    """Every standard rating of a kind, ascending, with whether it may be rested on."""
    listed = [r for r in rows("ocpd_standard_ratings_240_6") if str(year) in r["editions"].split(";")]
    listed = [r for r in listed if kind == "fuse" or r["kind"] != "fuse_only"]
    return sorted((int(r["rating_a"]), r["confidence"] in TRUSTED) for r in listed)


def largest_device(q, year):
    ampacity, ratings = number(q["ampacity"]), standard(q["kind"], year)
    device = max((rating for rating, _ in ratings if rating <= ampacity), default=None)
    above, trusted = next(r for r in ratings if r[0] > ampacity)
    if device != ampacity and not trusted:
        # Whoever may not rest on that rating cannot say that it is not at or below the ampacity.
        raise CannotTell("rating from memory")
    # 240.4(B)(2), (3): the ampacity is not itself a rating of 240.6(A), those of fuses alone included, and the device is
    # the next one of that whole list.
    every = [rating for rating, _ in standard("fuse", year)]
    is_next = ampacity not in every and above == min(rating for rating in every if rating > ampacity)
    if device != ampacity and q["supplies"] == "other" and is_next and above <= 800:
        device = above
    if device is None:
        raise CannotTell("below every standard rating")
    limit = small_conductor(q["material"], q["size"], year)
    return min(device, limit) if limit else device


def next_device(q, year):
    for rating, trusted in standard(q["kind"], year):
        if not trusted:
            raise CannotTell("rating from memory")
        if number(q["required"]) <= rating:
            return rating
    raise CannotTell("above every standard rating")


def continuous_load(q):
    factor = Fraction(5, 4) if q["continuous-rating"] == "80 %" else 1
    return number(q["continuous"]) * factor + number(q["non-continuous"])


# Grounding: 250.122(A), (B), 250.66


def area(of):
    found = [r for r in rows("conductor_properties_ch9_t8") if size(r["size"]) == of]
    if not found:
        raise CannotTell("no area")
    return int(found[-1]["area_cmil"])


def equipment_grounding(q, year):
    device, metal = number(q["device"]), METALS[q["material"]]
    name = "cu_size" if metal == "cu" else ("al_size_2014_2017" if year == 2017 else "al_size_2020_2023")
    fitting = [r for r in rows("egc_250_122") if device <= int(r["ocpd_not_exceeding_a"])]
    if not fitting:
        raise CannotTell("above the table")
    least = size(fitting[0][name])
    if "needed" not in q or gauge(q["installed"]) <= gauge(q["needed"]):
        return least
    wanted = Fraction(area(least) * area(q["installed"]), area(q["needed"]))
    sizes = [size(r["size"], r["unit"]) for r in rows("ampacity_310_16")]
    for candidate in sorted(sizes, key=gauge):
        if gauge(candidate) >= gauge(least) and area(candidate) >= wanted:
            return min(candidate, q["installed"], key=gauge)
    raise CannotTell("larger than every standard size")


def grounding_electrode(q):
    service, metal = METALS[q["service-material"]], METALS[q["material"]]
    for row in rows("gec_250_66"):
        through = row[f"{service}_service_through"]
        if not through or gauge(q["service-size"]) <= gauge(size(through)):
            return size(row[f"{metal}_gec"])
    raise CannotTell("no row")


# Voltage drop: Chapter 9 Tables 8 and 9. Lengths in thousands of feet.

# Part of the definition of the answers: the square root of 3 to nine digits, rounded up.
ROOT_3 = Fraction(1_732_050_808, 10**9)
# One conductor's resistance is rounded up to this many ohms per thousand feet.
FINEST = Fraction(1, 1_250_000_000_000_000)


def sine(power_factor):
    """To nine digits, rounded up: part of the definition too."""
    square = 10**18 - int(Fraction(power_factor) * 10**9) ** 2
    root = isqrt(square)
    return Fraction(root + (root * root != square), 10**9)


def kilofeet(text):
    value, unit = text.split()
    return {"ft": Fraction(1, 1000), "m": 1 / Fraction("304.8")}[unit] * Fraction(value)


def per_kilofoot(text):
    value, unit = text.split()
    return {"ohm/kft": Fraction(1), "ohm/km": Fraction("0.3048")}[unit] * Fraction(value)


def impedance(wire, q):
    """Resistance and reactance of one conductor, in ohms per thousand feet."""
    if "resistance" in wire:
        return per_kilofoot(wire["resistance"]), per_kilofoot(wire.get("reactance", "0 ohm/kft"))
    of, metal = wire["size"], METALS[wire["material"]]
    if q["method"] == "constant":
        return Fraction(q["k"]) * 1000 / area(of), Fraction(0)
    if q["method"] == "dc":
        stranded = table("conductor_properties_ch9_t8", lambda r: size(r["size"]), of)[-1]
        name = "cu_uncoated_ohm_per_kft" if metal == "cu" else "al_ohm_per_kft"
        names = columns_between(stranded, "area_mm2", "al_ohm_per_kft")
        at_75 = cell(stranded, name, stranded["confidence"], names)
        [of_metal] = [r for r in rows("temperature_coefficients") if r["material"][:2] == wire["material"][:2]]
        rise = number(q["conductor-temperature"]) - 75
        return at_75 * (1 + Fraction(of_metal["coefficient_per_c_at_75c"]) * rise), Fraction(0)
    [row] = table("ac_impedance_ch9_t9", lambda r: size(r["size"], r["unit"]), of)
    conduit = CONDUITS[q["conduit"]]
    r = row[f"r_{metal}_{conduit}_ohm_per_kft"]
    x = row["x_steel_conduit_ohm_per_kft" if conduit == "steel" else "x_pvc_al_conduit_ohm_per_kft"]
    if not r:
        raise CannotTell("blank")
    return Fraction(r), Fraction(x)


def effective(wire, q):
    r, x = impedance(wire, q)
    if q["method"] in ("dc", "constant"):
        return r
    return r * Fraction(q["power-factor"]) + x * sine(q["power-factor"])


def voltage_drop(q, path):
    """The drop, negative for a rise, and how far rounding may have moved the printed figure."""
    drop, rounding = Fraction(0), Fraction(1, 10**12)
    for segment in path:
        length, current = kilofeet(segment["length"]), number(segment["current"])
        wire = effective(segment["wire"], q)
        neutral = effective(segment.get("neutral", segment["wire"]), q)
        if q["circuit"] == "three-phase":
            drop += ROOT_3 * current * wire * length
            rounding += 3 * current * length * FINEST
            continue
        back = current - number(segment["other"]) if q["circuit"] == "three-wire" else current
        drop += (current * wire + back * neutral) * length
        rounding += (current + abs(back)) * length * FINEST
    return drop, rounding
