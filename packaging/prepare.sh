# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash

# To be sourced: what the commands of this folder do before their own work, on a bare Debian 12 as well as on a
# machine that has everything. Without missing packages it needs neither a network nor an administrator.

set -euo pipefail
export LC_ALL=C.UTF-8
project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

say() {
  echo "== $*"
}

as_administrator() {
  if [[ $EUID -eq 0 ]]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    echo "$1 must be run by an administrator, and there is no sudo here; run this as root" >&2
    return 1
  fi
}

is_installed() {
  [[ $(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null) == installed ]]
}

# install_missing WHEN…: the packages of packaging/dependencies for these occasions that are not installed yet.
install_missing() {
  local occasion package reason missing=()
  while read -r occasion package reason; do
    if [[ " $* " == *" $occasion "* ]] && ! is_installed "$package"; then
      say "missing: $package: $reason"
      missing+=("$package")
    fi
  done <"$project/packaging/dependencies"
  if [[ ${#missing[@]} -eq 0 ]]; then
    say "all packages to $* are installed"
    return
  fi
  say "installing ${missing[*]}"
  as_administrator apt-get -q update
  as_administrator env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "${missing[@]}"
}

# package_options SOURCE: the options of cmake for what is put into packages, one a line. Where the source lies is in no
# program: messages and symbols name files from the project's folder on.
package_options() {
  printf '%s\n' -DLOOPSIDE_TESTS=OFF -DCMAKE_INSTALL_PREFIX=/usr -DCMAKE_EXE_LINKER_FLAGS=-Wl,-z,now \
    "-DCMAKE_CXX_FLAGS=-ffile-prefix-map=$1/="
}

# build_in FOLDER [CMAKE_OPTION…] [-- TARGET…]: configures what is shipped in FOLDER and builds the targets, or all.
build_in() {
  local folder=$1 options=()
  shift
  while [[ $# -gt 0 && $1 != -- ]]; do
    options+=("$1")
    shift
  done
  if command -v ccache >/dev/null; then
    options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
  fi
  say "building in $folder"
  cmake -S "$project" --preset release -B "$folder" "${options[@]}"
  cmake --build "$folder" --parallel "$(nproc)" ${2:+--target "${@:2}"}
}
