#!/usr/bin/env bash
# A browser for the phone tests: Debian's, through apt, when we are root and none is found.
set -u
for found in "${CHROME_PATH:-}" /usr/bin/chromium /usr/bin/google-chrome; do
  [ -n "$found" ] && [ -x "$found" ] && exit 0
done
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
  apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium >/dev/null
fi
exit 0
