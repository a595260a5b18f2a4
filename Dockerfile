# One image for web, worker and clock: docker-compose.yml says which is which.
FROM python:3.13-slim-bookworm AS packages

WORKDIR /build
COPY pyproject.toml requirements.lock.txt ./
# What runs and nothing for developing, in the versions of the lock and each checked by the lock's hash.
RUN pip install --no-cache-dir "$(sed -n 's/^\(uv==[^ ]*\).*/\1/p' requirements.lock.txt)" \
    && python -m venv --without-pip /opt/kitproof \
    && uv pip install --no-cache --compile-bytecode --python /opt/kitproof/bin/python \
        --constraints requirements.lock.txt --requirements pyproject.toml


FROM python:3.13-slim-bookworm

# Sheets are set by Pango, a library of the system.
RUN apt-get update \
    && apt-get install --yes --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 \
    && rm -rf /var/lib/apt/lists/* \
    && useradd --system --uid 10001 --no-create-home kitproof \
    && install --directory --mode 0755 /opt/static \
    && install --directory --owner kitproof --group kitproof --mode 0700 /srv/kitproof

COPY --from=packages /opt/kitproof /opt/kitproof
ENV PATH=/opt/kitproof/bin:$PATH PYTHONUNBUFFERED=1 KITPROOF_HOME=/srv/kitproof KITPROOF_STATIC=/opt/static

WORKDIR /opt/checkout
COPY manage.py ./
COPY config config
COPY frontend frontend
COPY inventory inventory
COPY kits kits
COPY layouts layouts

# Into the image and not into the volume, which would keep the files of the image that it was first used with.
RUN python -m compileall -q . \
    && KITPROOF_HOME=/tmp/home python manage.py collectstatic --no-input --verbosity 0 \
    && rm -rf /tmp/home

USER kitproof
VOLUME /srv/kitproof
EXPOSE 8000
CMD ["gunicorn", "--config", "python:config.web", "--bind", "0.0.0.0:8000", "config.wsgi"]
