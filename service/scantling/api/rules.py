"""The codes that stand in `errors` of an invalid request (422), each with its meaning.

Two lists: those that the published schema of a request already rules out, and the *cross-field rules*, which
a request can break although every member fits its schema. The second list is the promise that clients and the
contract tests rely on: a body that fits the schema is refused only with one of these codes.
"""

from collections.abc import Mapping

SCHEMA_CODES: Mapping[str, str] = {
    "unknown-member": "A member that the request does not have.",
    "missing-member": "A member that must be given.",
    "wrong-type": "A JSON value of another type than the member takes.",
    "out-of-range": "A number below the least or above the most that the member takes.",
    "not-one-of": "A word that is not on the member's list.",
    "bad-text": "Text that is too long, too short or holds characters that the member does not take.",
    "bad-length": "A length that cannot be read: not a number, and not text of the length grammar.",
    "unknown-unit": "A length with a word after its number that is no unit of length.",
    "mark-missing": "Feet and inches where the inches lack their mark.",
    "spreadsheet-date": "A fraction that a spreadsheet turned into a date.",
    "not-a-number": "A word such as nan or inf in place of a number.",
    "negative": "A length below nought.",
    "empty": "An empty text in place of a value.",
    "too-many": "More entries than the list or object takes.",
    "too-few": "Fewer entries than the list or object takes.",
    "not-finite": "A number that is not finite.",
    "does-not-fit": "A value that does not fit for another reason, given in the detail.",
}

CROSS_FIELD_RULES: Mapping[str, str] = {
    "length-out-of-range": "A length, once its unit is applied, must lie between the least and the most of its member.",
    "length-parts-disagree": "In a written length the fraction after a whole number must be below 1 and the "
    "inches after feet below 12.",
    "unit-missing": "A fraction without a unit is read only where the request's units are inches.",
    "id-repeated": "An id must be unique in its list.",
    "too-much-work": "All pieces together must not be more than the service takes.",
    "least-above-most": "The least of a range must not be above its most.",
}
