#!/usr/bin/env bash
# A packed tarball, installed into an empty folder, must run `npx sparewright kit` on the demo.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
npm pack --silent --pack-destination "$folder" >/dev/null
cd "$folder"
npm init -y >/dev/null
npm install --silent ./sparewright-*.tgz
answer=$(SPAREWRIGHT_DB="$folder/demo.db" npx --no-install sparewright kit --demo --json)
printf '%s' "$answer" | node -e '
  const kit = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
  if (kit.status !== "optimal" || kit.lines.length < 50 || kit.cautions.length < 5) {
    console.error("the packed program did not give the demo kit:", kit.status, kit.lines.length);
    process.exit(1);
  }
  console.log(`packed tarball: ${kit.sentence}`);
'
