"""Makes knee.json: check values from general-purpose libraries, for reckonings without a published worked example.

Run: python3 make_knee_checks.py > knee.json   (Python 3 with numpy and pandas from PyPI)
The ways differ from the crate's on purpose: legs are drawn and measured, times go through time zone aware stamps.
"""

import json
import sys

import numpy as np
import pandas as pd

values = []


def add(reckoning, inputs, output, expected, within=1e-4):
    values.append(dict(reckoning=reckoning, inputs=inputs, output=output, expected=expected, within=within))


def direction(degrees):
    return np.array([np.cos(np.radians(degrees)), np.sin(np.radians(degrees))])


def medial_angle(ldfa, mpta, jlca):
    """Hip-knee-ankle angle on the medial side of a drawn right leg; x is lateral, y is up, lateral opening is varus."""
    hip = direction(ldfa)  # from the femoral joint line, which points along x
    ankle = direction(180 - jlca + mpta)  # from the tibial joint line, which drops laterally by the convergence
    turn = np.degrees(np.arctan2(hip[0] * ankle[1] - hip[1] * ankle[0], hip @ ankle))
    return float(turn % 360)


for ldfa, mpta, jlca in [(88.5, 86, 2.5), (86, 91.3, -1.2), (90, 90, 0), (84.4, 95.1, 0.7)]:
    hka = medial_angle(ldfa, mpta, jlca)
    inputs = dict(ldfa_deg=ldfa, mpta_deg=mpta, jlca_deg=jlca)
    add("alignment", inputs, "hka_deg", hka)
    add("alignment", inputs, "mhka_deviation_deg", hka - 180)

for width, angle in [(60, 4), (75.5, 10), (52, -3.5), (80, 0)]:
    slope = np.tan(np.deg2rad(angle))
    inputs = dict(ldfa_deg=88, mpta_deg=87, wedge_width_mm=width, wedge_angle_deg=angle)
    add("alignment", inputs, "wedge_height_mm", float(np.interp(width, [0, 1000], [0, 1000 * slope])))

for component, measured, recut, kerf, worn in [(9, 6, 0, 1, 2), (8, 6.5, 1, 1.2, 0), (9, 8.6, 0, 1, 0), (8.5, 5, 0.5, 1.1, 2.5)]:
    inputs = dict(component_mm=component, measured_mm=measured, recut_mm=recut, kerf_mm=kerf, cartilage_worn_mm=worn)
    target = float(np.dot([1, -1, -1], [component, kerf, worn]))
    removed = float(np.sum([measured, recut]))
    add("cut", inputs, "target_mm", target)
    add("cut", inputs, "deviation_mm", removed - target)
    add("posterior_offset", inputs, "change_mm", float(np.dot([1, -1, -1, -1, -1], [component, measured, recut, kerf, worn])))

for medial, lateral, spacing in [(1.5, -0.5, 48), (-1, 1, 45.5), (0.4, 0.4, 50), (3, 0, 30)]:
    line = np.array([spacing, medial - lateral], dtype=float)
    tilt = np.degrees(np.arcsin(line[1] / np.linalg.norm(line)))
    inputs = dict(medial_deviation_mm=medial, lateral_deviation_mm=lateral, spacing_mm=spacing)
    add("cut_tilt", inputs, "tilt_deg", float(tilt))

for residual, button, before in [(14, 9, 23.5), (11.9, 8.5, 20), (12, 10, 22)]:
    inputs = dict(residual_mm=residual, button_mm=button, before_mm=before)
    thickness = pd.Series([residual, button, -before])
    add("patella", inputs, "composite_mm", float(thickness[:2].sum()))
    add("patella", inputs, "change_mm", float(thickness.sum()))

for em, el, fm, fl in [(1, 2, 1.5, 3), (20.5, 22, 24, 26.5), (0, 0, 0, 0), (0.3, 0.1, 0.7, 0.2)]:
    inputs = dict(extension_medial_mm=em, extension_lateral_mm=el, flexion_medial_mm=fm, flexion_lateral_mm=fl)
    if max(em, el, fm, fl) > 10:  # gaps between cut surfaces; equal parts leave every difference as it is
        inputs.update(extension_parts_mm=19, flexion_parts_mm=19)
    space = np.array([[em, el], [fm, fl]], dtype=float)
    add("gaps", inputs, "extension_difference_mm", float(np.diff(space)[0, 0]))
    add("gaps", inputs, "flexion_difference_mm", float(np.diff(space)[1, 0]))
    add("gaps", inputs, "flexion_minus_extension_lateral_mm", float(np.diff(space, axis=0)[0, 1]))
    add("gaps", inputs, "flexion_minus_extension_mean_mm", float(np.diff(space.mean(axis=1))[0]))

for spans in [[("2026-03-04T08:30", "2026-03-04T09:41")], [("2026-03-04T23:20", "2026-03-05T00:55"), ("2026-03-05T01:04", "2026-03-05T01:31")]]:
    stamps = [tuple(pd.Timestamp(end, tz="UTC") for end in span) for span in spans]
    inputs = dict(inflations=[dict(up_at=up, down_at=down) for up, down in spans])
    total = sum(((down - up) for up, down in stamps), pd.Timedelta(0))
    add("tourniquet_time", inputs, "total_min", total.total_seconds() / 60)
    add("tourniquet_time", inputs, "longest_min", max(down - up for up, down in stamps).total_seconds() / 60)

for given, incision in [("2026-03-04T08:05", "2026-03-04T08:52"), ("2026-03-03T23:40", "2026-03-04T00:10"), ("2024-02-28T23:59", "2024-02-29T00:59")]:
    minutes = (pd.Timestamp(incision, tz="UTC") - pd.Timestamp(given, tz="UTC")) / pd.Timedelta(minutes=1)
    inputs = dict(drug="cefazolin", given_at=given, incision_at=incision, weight_kg=80)
    add("antibiotic_timing", inputs, "minutes_before_incision", minutes)
    due = (pd.Timestamp(given) + pd.Timedelta(hours=4)).strftime("%Y-%m-%dT%H:%M")
    add("antibiotic_timing", inputs, "redosing_interval_ends_at", due)

for times in [("2026-03-04T09:50", "2026-03-04T09:53", "2026-03-04T09:56", "2026-03-04T10:02"), ("2026-03-04T23:55", "2026-03-04T23:58", "2026-03-05T00:01", "2026-03-05T00:07")]:
    names = ["mixed_at", "applied_at", "seated_at", "hard_at"]
    steps = pd.Series(pd.to_datetime(list(times))).diff().dt.total_seconds() / 60
    inputs = dict(mixes=[dict(zip(names, times))])
    add("cement_times", inputs, "mix_1_mixed_to_applied_min", float(steps[1]))
    add("cement_times", inputs, "mix_1_applied_to_seated_min", float(steps[2]))
    add("cement_times", inputs, "mix_1_mixed_to_hard_min", float(steps.sum()))

for doses in [[1000, 1000], [1000, 2000, 250.5]]:
    inputs = dict(doses=[dict(dose_mg=dose) for dose in doses])
    add("tranexamic_total", inputs, "total_mg", float(np.sum(doses)))

for first, days in [("2026-07-07", 14), ("2024-02-20", 35), ("2025-12-28", 10), ("2026-07-07", 1)]:
    inputs = dict(first_dose_on=first, days=days)
    add("vte_dates", inputs, "last_dose_on", pd.date_range(first, periods=days, freq="D")[-1].strftime("%Y-%m-%d"))

made_with = f"Python {sys.version.split()[0]}, numpy {np.__version__}, pandas {pd.__version__}"
print("{")
print(f'  "made_with": {json.dumps(made_with)},')
print('  "values": [')
print(",\n".join("    " + json.dumps(value) for value in values))
print("  ]")
print("}")
