"""Running the service under uvicorn: one process for the door, worker processes for the computing."""

import logging
import sys

import uvicorn

from .app import create_app
from .settings import Settings

FORMAT = "%(asctime)s %(levelname)s %(message)s"


def serve(settings: Settings) -> int:
    """Serve until told to stop; return the exit code."""
    logging.basicConfig(stream=sys.stdout, level=settings.log_level.upper(), format=FORMAT, force=True)
    config = uvicorn.Config(
        create_app(settings),
        host=settings.host,
        port=settings.port,
        log_config=None,
        access_log=False,  # the door writes its own line, with the request id
        proxy_headers=True,
        forwarded_allow_ips=settings.forwarded_allow_ips,
        server_header=False,
        timeout_graceful_shutdown=settings.drain,
    )
    server = uvicorn.Server(config)
    server.run()
    return 0 if server.started else 1
