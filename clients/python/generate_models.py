"""Make scantling_client/models.py from the service's OpenAPI document: the types of everything it takes and answers.

    python clients/python/generate_models.py            # writes the file
    python clients/python/generate_models.py --check    # tells whether it is up to date

The types are plain TypedDicts with the contract's own descriptions, so the client needs no library for them. Members
come in alphabetical order, as in the committed document.
"""

import argparse
import json
import keyword
import re
import sys
from collections.abc import Mapping
from pathlib import Path
from textwrap import wrap
from typing import Any

HERE = Path(__file__).resolve().parent
DOCUMENT = HERE.parent.parent / "openapi" / "scantling.v1.json"
MODELS = HERE / "scantling_client" / "models.py"
WIDTH = 116
PLAIN = {"string": "str", "integer": "int", "number": "float", "boolean": "bool", "null": "None"}
HEADER = '''"""What the service takes and answers, as types. Made by generate_models.py from the contract: do not edit.

A length is a number in the request's `units`, or text that carries its own unit, such as `"3/4 in"`. Answers may carry
more members than are listed here.
"""

# fmt: off
# ruff: noqa: E501 - the contract's lists of words are long

from typing import Any, Literal, NotRequired, TypeAlias, TypedDict
'''
Schema = Mapping[str, Any]


def models(document: Schema) -> str:
    """Return the text of models.py for an OpenAPI document."""
    schemas: Schema = document["components"]["schemas"]
    blocks = [HEADER]
    for name in _used_first(schemas):
        schema = schemas[name]
        blocks.append(_typed_dict(name, schema) if "properties" in schema else _alias(name, schema))
    names = "".join(f'    "{name}",\n' for name in sorted(schemas))
    return "\n\n".join([*blocks, f"__all__ = [\n{names}]\n"])


def _used_first(schemas: Schema) -> list[str]:
    """Return the names by the alphabet, but each after those it uses. Raises ValueError for a circle."""
    order: list[str] = []

    def visit(name: str, path: tuple[str, ...]) -> None:
        if name in path:
            raise ValueError(f"{' uses '.join((*path, name))}: a circle cannot be written as plain types")
        if name not in order:
            for used in sorted(set(re.findall(r'"#/components/schemas/([^"]+)"', json.dumps(schemas[name])))):
                visit(used, (*path, name))
            order.append(name)

    for name in sorted(schemas):
        visit(name, ())
    return order


def _alias(name: str, schema: Schema) -> str:
    return f"{name}: TypeAlias = {_type(schema)}\n{_text(schema, '')}"


def _typed_dict(name: str, schema: Schema) -> str:
    members: Schema = schema["properties"]
    required = schema.get("required", ())
    if any(keyword.iskeyword(member) or not member.isidentifier() for member in members):
        entries = "".join(f'        "{m}": {_member(s, m in required)},\n' for m, s in sorted(members.items()))
        return f'{name} = TypedDict(\n    "{name}",\n    {{\n{entries}    }},\n)\n{_text(schema, "")}'
    lines = [f"class {name}(TypedDict):\n{_text(schema, '    ')}"]
    lines += [f"    {m}: {_member(s, m in required)}\n{_text(s, '    ')}" for m, s in sorted(members.items())]
    return "\n".join(lines)


def _member(schema: Schema, required: bool) -> str:
    told = _type(schema)
    return told if required else f"NotRequired[{told}]"


def _type(schema: Schema) -> str:
    """Return the Python type of a JSON Schema."""
    if "$ref" in schema:
        return str(schema["$ref"]).rsplit("/", 1)[1]
    for word in ("anyOf", "oneOf"):
        if word in schema:
            return " | ".join(dict.fromkeys(_type(one) for one in schema[word]))
    if "enum" in schema:
        return f"Literal[{', '.join(map(_value, schema['enum']))}]"
    if "const" in schema:
        return f"Literal[{_value(schema['const'])}]"
    kind = schema.get("type")
    if isinstance(kind, list):
        return " | ".join(_type({**schema, "type": one}) for one in kind)
    if kind == "array":
        return f"list[{_type(schema.get('items', {}))}]"
    if kind == "object":
        values = schema.get("additionalProperties")
        return f"dict[str, {_type(values) if isinstance(values, Mapping) else 'Any'}]"
    return PLAIN.get(str(kind), "Any")


def _value(value: object) -> str:
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else repr(value)


def _text(schema: Schema, indent: str) -> str:
    """Return a schema's description as a docstring, or nothing."""
    words = " ".join(str(schema.get("description", "")).split()).replace("\\", "\\\\").replace('"""', "'''")
    if not words:
        return ""
    if len(indent) + len(words) + 6 <= WIDTH and not words.endswith('"'):
        return f'{indent}"""{words}"""\n'
    body = "".join(f"{indent}{line}\n" for line in wrap(words, WIDTH - len(indent), break_long_words=False))
    return f'{indent}"""\n{body}{indent}"""\n'


def main() -> int:
    """Write the file, or with --check compare it; return the exit code."""
    parser = argparse.ArgumentParser(description="Make scantling_client/models.py from the OpenAPI document.")
    parser.add_argument("document", nargs="?", type=Path, default=DOCUMENT)
    parser.add_argument("--check", action="store_true", help="only tell whether the file is up to date")
    given = parser.parse_args()
    fresh = models(json.loads(given.document.read_text(encoding="utf-8")))
    if not given.check:
        MODELS.write_text(fresh, encoding="utf-8")
        return 0
    if MODELS.read_text(encoding="utf-8") == fresh:
        return 0
    print(f"{MODELS.name} differs from the contract: run python clients/python/{Path(__file__).name}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    raise SystemExit(main())
