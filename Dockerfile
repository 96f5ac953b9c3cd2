# Build: docker build -t padside .   Run: see docs/operations.md.
FROM node:20-bookworm-slim AS packages
RUN apt-get update \
  && apt-get install -y --no-install-recommends python3 make g++ \
  && rm -rf /var/lib/apt/lists/*
WORKDIR /app
COPY package.json package-lock.json ./
RUN npm ci --omit=dev --no-audit --no-fund

FROM node:20-bookworm-slim
RUN apt-get update \
  && apt-get install -y --no-install-recommends pocketsphinx pocketsphinx-en-us opus-tools espeak-ng \
  && rm -rf /var/lib/apt/lists/*
ENV NODE_ENV=production PADSIDE_DB=/data/padside.sqlite
WORKDIR /app
COPY --from=packages /app/node_modules ./node_modules
COPY package.json ./
COPY locales ./locales
COPY src ./src
RUN mkdir /data && chown node:node /data
USER node
VOLUME /data
STOPSIGNAL SIGTERM
CMD ["node", "--import", "tsx", "src/app/main.ts"]
