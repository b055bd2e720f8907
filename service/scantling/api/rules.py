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
    "value-out-of-range": "A query value, once read, must lie between the least and the most of its figure.",
    "text-does-not-fit": "A query value of the right characters must still make one value: an angle in degrees or as a "
    "rise over a run, decimals with the mark that `decimal` names, a fraction below 1.",
    "values-do-not-go-together": "Values that are each in range must still make one thing.",
    "not-printable": "Text must be printable; no pattern lists every character that is not.",
    "id-or-kind": "A price is for a line or for a kind, and a finish of a kind or a system: one of the two.",
    "unit-mismatch": "The unit of a pack must measure what its line counts.",
    "used-above-quantity": "No more can be used than is needed.",
    "unknown-module": "A module must be one of GET /v1/modules.",
    "unknown-parameter": "A parameter must be one of the module's own.",
    "bad-parameter": "A parameter must fit the module's own schema.",
    "unknown-role": "A role must be one of the module's own.",
    "unknown-material": "A material must be in the materials table or described in the request.",
    "cannot-be-built": "The parameters must together make a piece that can be built.",
    "stock-ambiguous": "A stock must be of one material and thickness.",
    "not-a-direction": "A direction must have the length 1, and two of one frame must be square to each other.",
    "unknown-part": "A part must be one of the assembly.",
    "unknown-joint": "A joint must be one of the assembly.",
    "unknown-fastener": "A fastener must be one of the assembly.",
    "bad-assembly": "The members of an assembly must make a piece that can be.",
    "bad-cut": "A cut must have the members of its kind and leave something of the part.",
    "bad-joint": "A joint needs two different parts.",
    "bad-fastener": "A fastener passes parts of its own joint.",
    "bad-promise": "A promise must name as many parts and sides as its kind takes.",
    "bad-load": "A load must name parts that carry it and an amount that its kind takes.",
    "record-missing": "A plan is stamped as built only with a record of who built it.",
    "open-chain": "The links of a dimension chain must add up to its total.",
    "too-many-parts": "An assembly must not have more parts than the service takes.",
    "needed-here": "A member that may be absent by itself is needed because of the others.",
    "out-of-range-here": "A value that fits its schema is outside the range that other members leave it.",
    "unknown-list": "A list, or a finish system, must be one that a plugin gives.",
    "unknown-id": "An id must be that of an entry of the request.",
    "unknown-size": "A size must be in the tables of the kind of fastener.",
    "contradiction": "Members must not ask for opposite things.",
    "too-much-work": "All pieces together must not be more than the service takes.",
    "least-above-most": "The least of a range must not be above its most.",
}

# What an operation calls a fault of a body that fits its schema, where the schema has that word for a fault of its own.
OPERATION_CODES: Mapping[str, str] = {
    "duplicate-id": "id-repeated",
    "does-not-fit": "values-do-not-go-together",
    "repeated": "id-repeated",
    "repeated-id": "id-repeated",
    "unknown-member": "bad-assembly",
    "not-text": "not-printable",
    "too-many": "too-much-work",
    "unknown-word": "bad-assembly",
    "empty": "needed-here",
    "missing": "needed-here",
    "missing-member": "needed-here",
    "out-of-range": "out-of-range-here",
    "not-a-number": "out-of-range-here",
    "unknown-diameter": "unknown-size",
    "unknown-gauge": "unknown-size",
    "unknown-pennyweight": "unknown-size",
}
