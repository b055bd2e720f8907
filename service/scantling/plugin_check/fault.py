"""What is wrong with a plugin, in words, and the words for what it gave."""


class Fault(Exception):
    """A plugin does not keep to the interface; the message says where and what would."""


def called(value: object) -> str:
    """Return what a value is, for a sentence."""
    return value.__name__ if isinstance(value, type) else f"a {type(value).__name__}"
