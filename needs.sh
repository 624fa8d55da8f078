# Sourced by undersong, verify and measure: what this machine lacks, installed where it may be, named where not.

may_install() { command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; }

install_packages() { # install_packages PACKAGE...: quietly; the caller looks again whether it helped
  may_install || return 1
  (apt-get -qq update && DEBIAN_FRONTEND=noninteractive apt-get -qq -y install --no-install-recommends "$@") \
    >/dev/null 2>&1
}

# The decoder that comes with the libraries is itself linked against these, whether or not a screen is there.
decoder_libraries="libva.so.2:libva2 libva-drm.so.2:libva-drm2 libdrm.so.2:libdrm2 libxcb.so.1:libxcb1
  libxcb-shm.so.0:libxcb-shm0 libX11.so.6:libx11-6 libX11-xcb.so.1:libx11-xcb1 libpulse.so.0:libpulse0 libasound.so.2:libasound2
  libudev.so.1:libudev1"

missing_decoder_packages() { # prints the Debian packages that hold what the decoder misses; nothing where all is there
  local known entry
  [ "$(uname -s)" = Linux ] || return 0
  known="$( (command -v ldconfig >/dev/null && ldconfig -p || /sbin/ldconfig -p) 2>/dev/null)" || return 0
  for entry in $decoder_libraries; do
    case "$known" in *"${entry%%:*} "*) ;; *) printf '%s ' "${entry##*:}" ;; esac
  done
}

need_decoder() { # the decoder's system libraries; fails, naming the packages, if they cannot be had
  local packages
  packages="$(missing_decoder_packages)"
  [ -z "$packages" ] && return 0
  # shellcheck disable=SC2086
  install_packages $packages
  packages="$(missing_decoder_packages)"
  [ -z "$packages" ] && return 0
  printf 'The decoder needs system libraries; install them with: apt-get install %s\n' "$packages" >&2
  return 1
}
