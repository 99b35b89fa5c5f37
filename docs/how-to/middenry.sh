#!/bin/sh
# /usr/local/bin/middenry: the commands of `npx middenry`, run as the service's own user on the service's own folder.
# Run it as root, and name files whole (/srv/own-2026-11-25.db, not own-2026-11-25.db).
set -eu
cd /opt/middenry/current
exec setpriv --reuid=middenry --regid=middenry --init-groups \
  env HOME=/var/lib/middenry NODE_ENV=production DATA_DIR=/var/lib/middenry node scripts/middenry.mjs "$@"
