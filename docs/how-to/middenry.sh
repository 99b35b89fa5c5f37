#!/bin/sh
# /usr/local/bin/middenry, run as root:
#   middenry upgrade ARCHIVE   builds the release in ARCHIVE beside the one that runs, goes over to it, and back by itself if it does not answer
#   middenry rollback          goes back to the release from before the last upgrade, and the store with it where its schema had changed
#   middenry COMMAND ...       any command of `npx middenry`, as the service's own user on the service's own folder
# Name files whole (/srv/own-2026-11-25.db, not own-2026-11-25.db).
set -eu
place=${MIDDENRY_PLACE:-/opt/middenry}
data=${DATA_DIR:-/var/lib/middenry}
user=${MIDDENRY_USER:-middenry}
settings=${MIDDENRY_SETTINGS:-/etc/middenry.env}
patience=${MIDDENRY_PATIENCE:-120}

sorry() {
  echo "middenry: $*" >&2
  exit 2
}

program() (
  cd "$place/current"
  if [ "$(id -u)" = 0 ]; then
    exec setpriv --reuid="$user" --regid="$(id -g "$user")" --init-groups \
      env HOME="$data" NODE_ENV=production DATA_DIR="$data" node scripts/middenry.mjs "$@"
  fi
  exec env NODE_ENV=production DATA_DIR="$data" node scripts/middenry.mjs "$@"
)

# Never a moment without a link: the new one takes the old one's name.
point() {
  ln -sfn "$2" "$place/.$1"
  mv -T "$place/.$1" "$place/$1"
}

setting() {
  { [ -r "$settings" ] && sed -n "s/^$1=//p" "$settings" | tail -n 1 | tr -d "\"'"; } || true
}

# Waits $1 seconds at most until the service says that it is ready; fails when it ended for good.
answers() {
  host=$(setting HOST)
  case $host in '' | 0.0.0.0 | ::) host=127.0.0.1 ;; *:*) host="[$host]" ;; esac
  port=$(setting PORT)
  ready="fetch('http://$host:${port:-4860}/readyz').then((answer) => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"
  end=$(($(date +%s) + $1))
  until node -e "$ready"; do
    if systemctl is-failed --quiet middenry || [ "$(date +%s)" -ge "$end" ]; then return 1; fi
    sleep 1
  done
}

# Back to the release $1. Where the schema had not changed the store is left as it is; the program says which of the two it was.
go_back() {
  systemctl stop middenry
  point current "$1"
  program rollback || true
  systemctl start middenry
  answers 120
}

upgrade() {
  [ $# -eq 1 ] || sorry 'which release? middenry upgrade /srv/middenry-0.2.0.tar.gz'
  [ -r "$1" ] || sorry "there is no file $1 to read. Name it whole, and look whether it was carried over."
  list=$(tar -tf "$1") || sorry "$1 is no archive, or was cut off. Carry it over again."
  name=$(echo "$list" | sed 's|^\./||' | cut -d/ -f1 | sort -u)
  case $name in
    middenry-*[!A-Za-z0-9.-]* | *..*) sorry "the folder in $1 has an odd name: $name" ;;
    middenry-?*) ;;
    *) sorry "$1 holds no release: it must hold one folder named middenry-VERSION." ;;
  esac
  old=$(readlink "$place/current") || sorry "$place/current does not point at a release: see install-without-containers.md."
  new="releases/$name"
  [ ! -e "$place/$new" ] || sorry "$place/$new is there already. Nothing was changed. If it is half built, remove it and say this again."
  echo "Building $name; $old goes on serving meanwhile."
  if ! tar --no-same-owner -xf "$1" -C "$place/releases" || ! (cd "$place/$new" && npm run build); then
    rm -rf "${place:?}/$new"
    sorry "$name could not be built; what npm said stands above. $old still runs, and nothing was changed."
  fi
  point current "$new"
  systemctl restart middenry
  if answers "$patience"; then
    point previous "$old"
    echo "$name runs. If it is not as it should be: middenry rollback"
    return
  fi
  echo "middenry: $name did not get ready in $patience seconds. Going back to $old." >&2
  go_back "$old" || sorry "$old does not get ready either: see journalctl -u middenry, then docs/how-to/upgrade-and-roll-back.md."
  echo "middenry: $old runs again. Why $name did not: journalctl -u middenry. Its folder is left in $place/$new." >&2
  exit 1
}

rollback() {
  [ $# -eq 0 ] || sorry 'rollback takes no words: it goes back to the release from before the last upgrade.'
  old=$(readlink "$place/previous") || sorry "there is no release to go back to: $place/previous is not there. Nothing was changed."
  [ -d "$place/$old" ] || sorry "$place/$old is not there any more. Unpack and build it again first. Nothing was changed."
  new=$(readlink "$place/current")
  [ "$old" != "$new" ] || sorry "$old runs already. Nothing was changed."
  if go_back "$old"; then
    rm -f "$place/previous"
    echo "$old runs again."
    return
  fi
  echo "middenry: $old did not get ready. Going on with $new." >&2
  point current "$new"
  systemctl restart middenry
  answers 120 || sorry "$new does not get ready either: see journalctl -u middenry."
  exit 1
}

case ${1:-} in
  upgrade | rollback) "$@" ;;
  *) program "$@" ;;
esac
