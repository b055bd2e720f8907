"""Give a copy of this template a name of its own, once: python rename.py boot-rack

Puts the new name into every file and file name (boot-rack, boot_rack, BootRack, "Boot rack") and removes itself.
"""

import re
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
OLD = "plant-stand"


def forms(name: str) -> list[str]:
    """Return a name as distributions, packages, classes and people write it."""
    words = name.split("-")
    return [name, "_".join(words), "".join(word.capitalize() for word in words), " ".join(words)]


def renamed(text: str, name: str) -> str:
    """Return a text with the old name in all its forms replaced."""
    for old, new in zip(forms(OLD), forms(name), strict=True):
        text = text.replace(old, new).replace(old.capitalize(), new.capitalize())
    return text


def main(arguments: list[str]) -> int:
    """Rename everything in this folder and return the exit code."""
    if len(arguments) != 1 or not re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", arguments[0]):
        print("usage: python rename.py NAME, in small letters, digits and single hyphens, such as boot-rack")
        return 2
    me = Path(__file__).resolve()
    for path in sorted(HERE.rglob("*"), reverse=True):  # what is inside a folder before the folder itself
        if path == me or "__pycache__" in path.parts:
            continue
        if path.is_file():
            path.write_text(renamed(path.read_text(encoding="utf-8"), arguments[0]), encoding="utf-8")
        path.rename(path.with_name(renamed(path.name, arguments[0])))
    me.unlink()
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
