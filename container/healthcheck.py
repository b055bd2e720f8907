"""Ask the service in this container whether it takes work; end with 0 when it does, else with 1 and the reason.

Standard library only, no proxies, and the service's own settings: its port, and a host name it answers to.
"""

import http.client
import os
import sys

SECONDS = 4


def ready() -> tuple[bool, str]:
    """Return whether the service answers /readyz with 200, and what it said."""
    port = int(os.environ.get("SCANTLING_PORT") or 8000)
    names = os.environ.get("SCANTLING_ALLOWED_HOSTS", "").split(",")[0].strip()
    host = names if names not in ("", "*") else "localhost"
    door = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
    try:
        door.request("GET", "/readyz", headers={"Host": host})
        answer = door.getresponse()
        return answer.status == 200, f"{answer.status} {answer.read(300).decode('utf-8', 'replace')}"
    except (OSError, http.client.HTTPException) as error:
        return False, f"no answer on port {port}: {error}"
    finally:
        door.close()


if __name__ == "__main__":
    good, said = ready()
    print(said)
    sys.exit(0 if good else 1)
