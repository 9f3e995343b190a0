"""Writes patient.json: check values for age, body, blood, kidney, score and readability.

Published worked examples stand here as printed, each with its source. The others were computed once with the libraries
named beside them:

    pip install numpy==2.4.6 pendulum==3.3.0 pint==0.25.3 textstat==0.7.3
    python make_patient_checks.py > patient.json
"""

import json
from importlib.metadata import version

import numpy
import pendulum
import pint
import textstat

NUMPY = f"numpy {version('numpy')}"
PENDULUM = f"pendulum {version('pendulum')}"
PINT = f"pint {version('pint')}"
TEXTSTAT = f"textstat {version('textstat')}, rounding off"

checks = []


def check(reckoning, inputs, output, expected, within, source):
    checks.append(
        {"reckoning": reckoning, "inputs": inputs, "output": output, "expected": expected, "within": within, "source": source}
    )


# --- age: python-dateutil lets a birthday on 29 February fall on 28 February; pendulum counts as this program does.
for birth, day in [
    ("1956-08-14", "2026-08-13"),
    ("1956-08-14", "2026-08-14"),
    ("2000-02-29", "2023-02-28"),
    ("2000-02-29", "2023-03-01"),
    ("2000-02-29", "2024-02-28"),
    ("2000-02-29", "2024-02-29"),
    ("1900-03-01", "2000-02-29"),
    ("2026-03-04", "2026-03-04"),
]:
    years = pendulum.parse(birth).diff(pendulum.parse(day)).in_years()
    check("age", {"birth_date": birth, "on_date": day}, "age_years", years, 0, PENDULUM)

# --- body
check("bmi", {"height_cm": 175, "weight_kg": 70}, "bmi_kg_m2", 22.9, 0.05, "WHO, BMI classification: example of an adult of 70 kg and 1.75 m")
for height, weight in [(170, 72.25), (180, 81), (162.5, 58.4), (190, 144.4)]:
    units = pint.UnitRegistry()
    bmi = (weight * units.kilogram / (height * units.centimetre) ** 2).to("kg/m**2").magnitude
    check("bmi", {"height_cm": height, "weight_kg": weight}, "bmi_kg_m2", bmi, 5e-5, PINT)
check("bsa", {"height_cm": 175, "weight_kg": 70}, "bsa_m2", 1.845, 5e-4, "public worked example of Mosteller's formula: √(12250 / 3600) = 1.845")
check("bsa", {"height_cm": 170, "weight_kg": 65}, "bsa_m2", 1.7520, 1e-4, "public reference value of Mosteller's formula: 170 cm, 65 kg")
check("bsa", {"height_cm": 160, "weight_kg": 90}, "bsa_m2", float(numpy.sqrt(160 * 90 / 3600)), 5e-5, NUMPY)

# --- blood
check("blood_volume", {"sex": "male", "height_cm": 180, "weight_kg": 80}, "blood_volume_l", 5.3, 0.05, "manual of the R package cliot 1.0.0, example 1 of Nadler's equation")
check("blood_volume", {"sex": "female", "height_cm": 160, "weight_kg": 60}, "blood_volume_l", 3.6, 0.05, "manual of the R package cliot 1.0.0, example 2 of Nadler's equation")
NADLER = {"male": [0.3669, 0.0, 0.0, 0.6041], "female": [0.3561, 0.0, 0.0, 0.1833]}
LINEAR = {"male": 0.03219, "female": 0.03308}


def nadler(sex, height_cm, weight_kg):
    return float(numpy.polyval(NADLER[sex], height_cm / 100) + LINEAR[sex] * weight_kg)


for sex, height, weight in [("male", 175, 92.5), ("female", 158, 71)]:
    check("blood_volume", {"sex": sex, "height_cm": height, "weight_kg": weight}, "blood_volume_l", nadler(sex, height, weight), 5e-5, NUMPY)


def gross(before, after, expected, within, source, **volume):
    inputs = {"haematocrit_before_fraction": before, "haematocrit_after_fraction": after, **volume}
    check("blood_loss_haematocrit", inputs, "blood_loss_ml", expected, within, source)


gross(0.42, 0.30, 1867, 0.5, "public worked example of Gross's formula: 5600 × 0.12 / 0.36", blood_volume_l=5.6)
gross(0.45, 0.30, 2400, 0.5, "manual of the R package cliot 1.0.0: 6000 × 15 / 37.5", blood_volume_l=6.0)
gross(0.40, 0.40, 0.0, 0, "equal before and after is no loss", blood_volume_l=5.0)
volume = nadler("female", 158, 71)
gross(0.41, 0.33, 1000 * volume * 0.08 / float(numpy.mean([0.41, 0.33])), 1e-3, NUMPY, sex="female", height_cm=158, weight_kg=71)


def balance(before, after, transfused, litres, **volume):
    units = pint.UnitRegistry()
    lost = litres * units.litre * (before - after) * units.gram / units.litre + transfused * 52 * units.gram
    ml = (lost / (before * units.gram / units.litre)).to("millilitre").magnitude
    inputs = {"haemoglobin_before_g_l": before, "haemoglobin_after_g_l": after, "transfused_units": transfused, **volume}
    check("blood_loss_haemoglobin", inputs, "haemoglobin_loss_g", lost.to("gram").magnitude, 1e-3, PINT)
    check("blood_loss_haemoglobin", inputs, "blood_loss_ml", ml, 1e-3, PINT)


balance(138, 104, 0, 4.5, blood_volume_l=4.5)
balance(138, 104, 2, 4.5, blood_volume_l=4.5)
balance(121, 121, 0, 4.5, blood_volume_l=4.5)
balance(145, 117, 1, nadler("male", 175, 92.5), sex="male", height_cm=175, weight_kg=92.5)


# --- kidney
def egfr(age, sex, creatinine, expected, within, source):
    check("egfr", {"age_years": age, "sex": sex, "creatinine_umol_l": creatinine}, "egfr_ml_min_1_73m2", expected, within, source)


def clearance(age, sex, weight, creatinine, expected, within, source):
    inputs = {"age_years": age, "sex": sex, "weight_kg": weight, "creatinine_umol_l": creatinine}
    check("creatinine_clearance", inputs, "creatinine_clearance_ml_min", expected, within, source)


MG_DL = 88.4
KIDNEY_FOUNDATION = "National Kidney Foundation, as recorded in the tests of the R package admiral"
egfr(55, "male", 1.09 * MG_DL, 80, 0.5, KIDNEY_FOUNDATION)
egfr(65, "female", 85, 66, 0.5, KIDNEY_FOUNDATION)
# At κ both bends meet and only age and sex are left.
egfr(50, "male", 0.9 * MG_DL, float(142 * numpy.power(0.9938, 50)), 5e-4, f"{NUMPY}, creatinine at κ")
egfr(50, "female", 0.7 * MG_DL, float(142 * numpy.power(0.9938, 50) * 1.012), 5e-4, f"{NUMPY}, creatinine at κ")
egfr(72, "female", 0.5 * MG_DL, float(142 * numpy.power(0.5 / 0.7, -0.241) * numpy.power(0.9938, 72) * 1.012), 5e-4, f"{NUMPY}, below κ")
clearance(55, "male", 90, 1.09 * MG_DL, 97, 0.5, KIDNEY_FOUNDATION)
clearance(65, "female", 60, 85, 55, 0.5, KIDNEY_FOUNDATION)
clearance(65, "male", 70, 1.4 * MG_DL, 52.1, 0.05, "public worked example of Cockcroft and Gault: 75 × 70 / 100.8")
clearance(45, "female", 60, 0.9 * MG_DL, 74.8, 0.05, "public worked example of Cockcroft and Gault: 5700 / 64.8 × 0.85")

# --- score
GUIDE = "Oxford Knee Score scoring guide, 2018: to convert either way subtract from 60"
for old, new in [(12, 48), (60, 0), (21, 39)]:
    check("score", {"scale": "12-60", "score": old}, "score_0_48", new, 0, GUIDE)
    check("score", {"scale": "0-48", "score": new}, "score_12_60", old, 0, GUIDE)

# --- readability
for text, ease, grade in [
    ("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 37.5, 11.3),
    ("The cat sat on the mat.", 116.1, -1.45),
    ("This sentence, taken as a reading passage unto itself, is being used to prove a point.", 69.0, None),
]:
    source = "Wikipedia, Flesch-Kincaid readability tests: worked examples"
    check("readability", {"text": text}, "flesch_reading_ease", ease, 0.05, source)
    if grade is not None:
        check("readability", {"text": text}, "flesch_kincaid_grade", grade, 0.05, source)
textstat.set_rounding(False)
# Sentences on which its hyphenation finds the syllables that are spoken.
for text in [
    "Keep the wound clean and dry. Wash your hands before you touch it. Rest with your leg up three times a day. "
    "You can walk with two sticks for six weeks.",
    "Walk a short way each day. Bend your knee ten times. Education and communication help most patients. "
    "The information department is next to the window. Call us if the wound leaks.",
]:
    inputs = {"text": text}
    check("readability", inputs, "sentences", textstat.sentence_count(text), 0, TEXTSTAT)
    check("readability", inputs, "words", textstat.lexicon_count(text), 0, TEXTSTAT)
    check("readability", inputs, "syllables", textstat.syllable_count(text), 0, TEXTSTAT)
    check("readability", inputs, "flesch_reading_ease", textstat.flesch_reading_ease(text), 5e-4, TEXTSTAT)
    check("readability", inputs, "flesch_kincaid_grade", textstat.flesch_kincaid_grade(text), 5e-4, TEXTSTAT)
    check("readability", inputs, "smog_grade", textstat.smog_index(text), 5e-4, TEXTSTAT)

print("[")
print(",\n".join(json.dumps(line, ensure_ascii=False) for line in checks))
print("]")
