"""A fault of ours that the independent check found."""


class NestingFault(RuntimeError):  # noqa: N818 - a fault of ours, found before it leaves the house
    """The independent check disagrees with the search: nothing is answered rather than something wrong."""
