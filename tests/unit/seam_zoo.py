"""Operations for the tests of the seam: well-behaved ones and every kind of misbehaviour."""

import ctypes
import math
import os
import signal
import sys
import time

from scantling.measure.errors import RequestError, RequestProblem


def echo(plain):
    return {"echo": plain, "pid": os.getpid()}


def slow(plain):
    time.sleep(plain["seconds"])
    return {"pid": os.getpid()}


def hang(plain):
    if "mark" in plain:
        with open(plain["mark"], "w") as file:
            file.write(str(os.getpid()))
    while True:
        time.sleep(0.01)


def hang_in_compiled_code(plain):
    ctypes.CDLL(None).sleep(60)
    return {}


def report(plain, progress, seconds):
    for step in range(plain["steps"]):
        progress(step / plain["steps"], 100 - step, 50)
        time.sleep(plain.get("pause", 0))
    return {"seconds": seconds}


def refuse(plain):
    raise RequestError([RequestProblem("/a~1b/0", "the value 7 is odd; an even number is accepted", "odd")])


def raise_secret(plain):
    raise RuntimeError("the secret is swordfish")


def leave(plain):
    sys.exit(3)


def die(plain):
    os.kill(os.getpid(), signal.SIGKILL)


def chatter(plain):
    print("x" * 100_000)
    os.write(1, b"straight to the descriptor\n")
    return {"read": sys.stdin.read(), "heard": os.read(0, 10).decode()}


def large(plain):
    return {"text": "x" * plain["size"]}


def not_plain(plain):
    return {"value": {"set": {1, 2}}}


def not_finite(plain):
    return {"value": math.nan}


def not_dict(plain):
    return ["a", "list"]


def too_deep(plain):
    return too_deep(plain)


def mutate(plain):
    plain["list"].clear()
    return {}


def hog(plain):
    return {"got": len(bytearray(plain["size"]))}


LOADED_AT = time.monotonic()


def age(plain):
    return {"seconds": time.monotonic() - LOADED_AT}


def loaded(plain):
    return {"modules": sorted(name for name in sys.modules if "." not in name)}
