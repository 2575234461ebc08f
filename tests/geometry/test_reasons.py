from __future__ import annotations

import ast
import re

import numpy as np
import pytest

from fixwright.geometry import reasons

CODES = {name: value for name, value in vars(reasons).items() if name.isupper() and isinstance(value, int)}


def test_each_code_has_a_number_and_a_sentence_of_its_own():
    assert sorted(CODES.values()) == list(range(len(CODES)))
    assert set(reasons.SENTENCES) == set(CODES.values())
    assert len(set(reasons.SENTENCES.values())) == len(CODES)


@pytest.mark.parametrize("name", [name for name in CODES if name != "OK"])
def test_a_sentence_reads_on_in_a_list(name):
    text = reasons.SENTENCES[CODES[name]]
    assert text and text == text.strip()
    assert not text.endswith(".") and "\n" not in text
    assert text[0].islower() or text.startswith(("DME", "NDB", "GNSS", "VOR"))
    assert len(text) < 200


def test_every_code_is_given_somewhere(root):
    """A code that nothing gives is a promise that a wrong row is found."""
    named = set()
    for path in (root / "geometry").rglob("*.py"):
        if path.name == "reasons.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute) and node.attr in CODES:
                named.add(node.attr)
            elif isinstance(node, ast.Name) and node.id in CODES:
                named.add(node.id)
    assert set(CODES) - named == set()


def test_first():
    out = reasons.first([0, 0, 3], [0, 2, 2], np.int16(0))
    assert out.tolist() == [0, 2, 3]
    assert out.dtype == np.int16
    assert reasons.first(0, 5).shape == ()
    assert reasons.first([[0], [7]], [1, 0]).tolist() == [[1, 0], [7, 7]]


def test_where():
    out = reasons.where([True, False], 9)
    assert out.tolist() == [9, 0] and out.dtype == np.int16


def test_sentences_keep_the_shape():
    codes = np.array([[0, reasons.NO_COURSE], [reasons.NEAR_POLE, 0]])
    out = reasons.sentences(codes)
    assert out.shape == (2, 2) and out.dtype == object
    assert out[0, 0] == "" and out[0, 1] == reasons.sentence(reasons.NO_COURSE)
    assert re.search("pole", out[1, 0])


def test_an_unknown_code_is_an_error():
    with pytest.raises(KeyError):
        reasons.sentence(999)


def test_notes_are_added_in_order():
    texts = np.array(["", "before", ""], dtype=object)
    reasons.note(texts, [True, True, False], lambda i: f"row {i}")
    assert texts.tolist() == ["row 0", "before; row 1", ""]


def test_join():
    out = reasons.join(["a", "", "a", ""], "", np.array(["b", "b", "", ""], dtype=object))
    assert out.tolist() == ["a; b", "b", "a", ""]
    assert reasons.join(np.array(["x", ""], dtype=object)).tolist() == ["x", ""]
