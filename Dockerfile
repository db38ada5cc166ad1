FROM python:3.11-slim-bookworm AS build
WORKDIR /src
COPY . .
RUN pip wheel --no-cache-dir --wheel-dir /wheels .

FROM python:3.11-slim-bookworm
COPY --from=build /wheels /wheels
RUN pip install --no-cache-dir --no-index --find-links /wheels followup && rm -r /wheels && useradd --create-home clinic \
    && install --directory --owner=clinic --mode=700 /home/clinic/data
USER clinic
WORKDIR /home/clinic
ENV FOLLOWUP_DATABASE=/home/clinic/data/clinic.db FOLLOWUP_HOST=0.0.0.0
VOLUME /home/clinic/data
EXPOSE 8000
HEALTHCHECK --start-period=60s CMD ["python", "-c", "import urllib.request; urllib.request.urlopen('http://127.0.0.1:8000/health', timeout=10)"]
ENTRYPOINT ["followup"]
CMD ["serve"]
