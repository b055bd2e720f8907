"""A fault of ours that the independent check found."""


class NestingFault(RuntimeError):
    """The independent check disagrees with the search: nothing is answered rather than something wrong."""
