# Two stages: the first makes a virtual environment with the service, its compiled nesting kernel and the client; the
# second holds that and nothing else. The builder needs no system package: where it has no C compiler, pip takes one
# from the package registry for the length of the build.
ARG PYTHON_IMAGE=docker.io/library/python:3.11-slim

FROM ${PYTHON_IMAGE} AS build
ENV PIP_NO_CACHE_DIR=1 \
    PIP_DISABLE_PIP_VERSION_CHECK=1
WORKDIR /src
COPY . .
RUN python3 -m venv /opt/venv \
    && /opt/venv/bin/python -m pip install . ./clients/python

FROM ${PYTHON_IMAGE}
LABEL org.opencontainers.image.title="scantling" \
      org.opencontainers.image.description="Woodworking computed: parts, fasteners, sheets, cost" \
      org.opencontainers.image.licenses="Apache-2.0"
COPY --from=build /opt/venv /opt/venv
COPY container/healthcheck.py /opt/healthcheck.py
# Inside a container the service must listen on every address; which of them the world sees is for `docker run -p` to
# say. Nothing is written but /tmp, so the root file system may be read-only, and any uid will do.
# Plugins come with an image of their own: the folder of plugins is off.
ENV PATH=/opt/venv/bin:$PATH \
    HOME=/tmp \
    PYTHONUNBUFFERED=1 \
    PYTHONDONTWRITEBYTECODE=1 \
    SCANTLING_HOST=0.0.0.0 \
    SCANTLING_PORT=8000 \
    SCANTLING_PLUGINS_FOLDER=
WORKDIR /srv
USER 10001:10001
EXPOSE 8000
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=30s --timeout=6s --start-period=60s --retries=3 \
    CMD ["/opt/venv/bin/python", "-IS", "/opt/healthcheck.py"]
CMD ["/opt/venv/bin/scantling", "serve"]
