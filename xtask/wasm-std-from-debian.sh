#!/bin/sh
# Where rustup cannot give the wasm target: builds the standard library for it with the
# distribution's compiler, once, and leaves in the folder $1 a `rustc` that finds it.
set -eu
own=$1 target=wasm32-unknown-unknown
mkdir -p "$own/crate/src" "$own/sysroot/lib/rustlib/$target/lib"
: >"$own/crate/src/lib.rs"
printf '[package]\nname = "empty"\nedition = "2024"\n[workspace]\n' >"$own/crate/Cargo.toml"
# An empty environment, or the outer cargo and rustup would put their own compiler in.
(cd "$own/crate" && env -i HOME="$HOME" PATH=/usr/bin:/bin RUSTC_BOOTSTRAP=1 \
  CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER="$2" /usr/bin/cargo build --release \
  --target $target -Zbuild-std=std,panic_abort,test,proc_macro)
cp "$own/crate/target/$target/release/deps/"*.rlib "$own/sysroot/lib/rustlib/$target/lib/"
# Build scripts and macros run on this machine, and must come from the same compiler.
for host in "$(/usr/bin/rustc --print sysroot)"/lib/rustlib/*-linux-gnu; do
  ln -sfn "$host" "$own/sysroot/lib/rustlib/$(basename "$host")"
done
printf '#!/bin/sh\nexec /usr/bin/rustc --sysroot "%s" "$@"\n' "$own/sysroot" >"$own/rustc.new"
chmod +x "$own/rustc.new"
# Last, in one move: its presence says that all of the above went well.
mv "$own/rustc.new" "$own/rustc"
