#!/usr/bin/env bash
# Checks the recipes of a pull request: problems, layout, and a review against the merge base with pictures.
# Usage: check-recipes.sh [BASE]      BASE: branch or commit that the change is meant for (default: origin/main)
# Environment:
#   ROLLBOOK     the command (default: rollbook)
#   OUT          folder for the reports (default: rollbook-report): check.sarif, review.html, summary.md
#   REVIEW       arguments of the review, such as "--fail-above 2" or "--words" (default: none)
# Exit code: 0 good, 1 problems found, 2 could not run.
set -u
base=${1:-origin/main}
read -r -a rollbook <<<"${ROLLBOOK:-rollbook}"
read -r -a review <<<"${REVIEW:-}"
out=${OUT:-rollbook-report}
worst=0

cannot() {
  echo "check-recipes: $1" >&2
  exit 2
}
note() { [ "$1" -le "$worst" ] || worst=$1; }

root=$(git rev-parse --show-toplevel) || cannot "this is no git repository."
cd "$root" || cannot "$root cannot be entered."
from=$(git merge-base "$base" HEAD) || cannot "$base and HEAD have no common commit. Fetch the whole history (fetch-depth: 0)."
mkdir -p "$out" || cannot "$out cannot be made."

recipes=()
while IFS= read -r -d '' file; do recipes+=("$file"); done < <(git ls-files -z -- '*.roll.yaml' '*.roll.yml' '*.stock.yaml' '*.stock.yml')
if [ ${#recipes[@]} -eq 0 ]; then
  echo "There are no recipes in this repository."
  exit 0
fi

echo "== Problems"
"${rollbook[@]}" check "${recipes[@]}" --sarif "$out/check.sarif"
note $?

echo "== Layout"
"${rollbook[@]}" format --check "${recipes[@]}"
note $?

echo "== Changes since $from"
"${rollbook[@]}" review "$from" --html "$out/review.html" --markdown "$out/summary.md" --overwrite --quiet ${review[@]+"${review[@]}"}
note $?
if [ -f "$out/summary.md" ]; then
  cat "$out/summary.md"
  [ -z "${GITHUB_STEP_SUMMARY:-}" ] || cat "$out/summary.md" >>"$GITHUB_STEP_SUMMARY"
fi
exit "$worst"
